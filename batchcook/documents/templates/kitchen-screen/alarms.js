/* What cannot wait: food whose time runs out, what to switch on, what stands ready too long. */

const SOON = 15;

function clockWords({ clock, runsOut }) {
  return `${clock.what}: ${placeOf(clock)} by ${clockOf(runsOut)}`;
}

function missedCard(found) {
  const { k, clock, runsOut } = found;
  const dish = clock.dish === null || clock.dish === undefined ? null : day.dishes[clock.dish];
  const stop = `Thrown out: ${clock.what}. ${dish ? dish.title : "It"} is not made.`;
  const without = `Thrown out: ${clock.what}`;
  return el("article", { class: "alarm danger", "aria-labelledby": `missed-${k}` },
    el("h3", { id: `missed-${k}` }, `${clock.what}: not ${placeOf(clock)} by ${clockOf(runsOut)}`),
    el("p", { class: "words" }, whatNow(clock)),
    el("div", { class: "acts" },
      button(`out-${k}`, dish ? `Thrown out; stop ${dish.title}` : "Thrown out",
        () => act(stop, () => { settleFood(k, "thrown out, dish stopped"); settleRest(clock); if (dish) dropDish(clock.dish); })),
      clock.whole || isMixedIn(clock) ? null : button(`without-${k}`, "Thrown out; go on without it",
        () => act(without, () => settleFood(k, "thrown out, dish goes on"))),
      button(`safe-${k}`, clock.state === "hot" ? `It was kept hot or cold in time` : "It was safe in time",
        () => act(`${clock.what} was safe in time`, () => settleFood(k, "was safe in time"))),
      hushButton(`missed ${k}`)));
}

/* Once a dish is stopped, its other clocks have nothing left to watch. */
function settleRest(clock) {
  day.clocks.forEach((other, k) => {
    const open = !(state.food[k] || {}).settled;
    if (other.dish === clock.dish && open) state.food[k] = { ...(state.food[k] || {}), settled: "dish stopped", at: minuteNow() };
  });
}

function soonCard(found) {
  const { k, clock, runsOut, arrival } = found;
  const late = arrival > runsOut ? ` As the day goes it would be ${clockOf(arrival)}.` : "";
  return el("article", { class: "alarm", "aria-labelledby": `soon-${k}` },
    el("h3", { id: `soon-${k}` }, clockWords(found)),
    el("p", { class: "left" }, countdown(runsOut, { "aria-label": `${clock.what}, time left` })),
    el("p", { class: "words" }, `${whatToDo(clock)}${late}`),
    el("div", { class: "acts" }, ...pauseButtons(found), hushButton(`soon ${k}`)));
}

function pauseButtons({ k, clock, phase }) {
  if (phase === "paused") return [button(`again-${k}`, "Out again", () => act(`${clock.what} is out again`, () => resumeFood(k)))];
  if (clock.state === "browned") return [];
  const hold = clock.state === "hot"
    ? [button(`hot-${k}`, `Held at ${day.hot} or above`, () => act(`${clock.what} is held hot`, () => pauseFood(k, "held hot")))]
    : [];
  return [...hold, button(`fridge-${k}`, "Refrigerated now", () => act(`${clock.what} is refrigerated`, () => pauseFood(k, "refrigerated")))];
}

function switchCard(i) {
  const task = day.tasks[i];
  return el("article", { class: "alarm", "aria-labelledby": `switch-${i}` },
    el("h3", { id: `switch-${i}` }, task.title),
    el("div", { class: "acts" },
      button(`on-${i}`, "It is on", () => act(`On: ${task.title}`, () => startTask(i)), { class: "big" }),
      hushButton(`switch ${i}`)));
}

/* Why a wait has an end, without the step that it begins with. */
const whyOf = (limit) => limit.reason.replace(/^[^:]*: /, "");

function waitCard({ limit, runsOut }) {
  const [ready, after] = [day.tasks[limit.before], day.tasks[limit.after]];
  const hold = (ready.dishes || []).length
    ? ` If you cannot, keep hot food at ${day.hot} or above, and put what is cold back into the refrigerator.` : "";
  return el("article", { class: "alarm" },
    el("h3", {}, ...letters(after), `${after.title} by ${clockOf(runsOut)}`),
    el("p", { class: "words" }, `${ready.title}: ${whyOf(limit)}. Go on with it now.${hold}`),
    el("div", { class: "acts" }, button(`more-${limit.after}`, "More", () => openMore(limit.after))));
}

function hushButton(key) {
  return state.quiet[key] ? null : button(`hush-${key.replace(" ", "-")}`, "Silence", () => hush(key));
}

function hush(key) {
  state.quiet[key] = true;
  keep();
  show();
}

/* Every call for somebody, with its card or without: what rings and is read out once. */
function callsOf(times, now) {
  const calls = [];
  for (const found of clockStates(times, now)) {
    const { k, phase, runsOut, arrival } = found;
    if (phase === "missed") {
      calls.push({ key: `missed ${k}`, danger: true, card: missedCard(found), words: `${found.clock.what}: time is up. ${whatNow(found.clock)}` });
    } else if (phase === "running" && (runsOut - now <= SOON || arrival > runsOut)) {
      calls.push({ key: `soon ${k}`, danger: true, card: soonCard(found), words: `${clockWords(found)}. ${whatToDo(found.clock)}` });
    }
  }
  day.tasks.forEach((task, i) => {
    const blocked = !network.into[i].every(isKept);
    if (task.switchOn && !isBegun(i) && !blocked && times[i][0] <= now) {
      calls.push({ key: `switch ${i}`, card: switchCard(i), words: `${day.cooks[task.teller || 0]}: ${task.title}` });
    }
  });
  for (const wait of lateWaits(times, now)) {
    const { before: ready, after } = wait.limit;
    calls.push({ key: `wait ${ready} ${after}`, quiet: true, card: waitCard(wait), words: `${day.tasks[after].title}: now. ${day.tasks[ready].title}: ${whyOf(wait.limit)}` });
  }
  for (const i of byItself()) {
    if (now >= doneAt(i)) calls.push({ key: `ends ${i}`, words: `Time is up: ${day.tasks[i].title}` });
  }
  return calls;
}

const onceOf = { cold: "out of the refrigerator", browned: "browned", hot: "off the heat" };

function safetyItem(found) {
  const { clock, phase, arrival, runsOut } = found;
  const words = phase === "later"
    ? [`${clock.what}, once ${onceOf[clock.state]}: ${placeOf(clock)} by about ${clockOf(runsOut)}`]
    : phase === "paused"
      ? [`${clock.what}: ${found.how}; its time stands still`]
      : [el("b", {}, clockWords(found)), " ", countdown(runsOut, { "aria-label": `${clock.what}, time left` }), ` (timed for ${clockOf(arrival)})`];
  return el("li", { class: phase }, el("span", {}, ...words),
    el("span", { class: "acts" }, ...(phase === "later" ? [] : pauseButtons(found))));
}
