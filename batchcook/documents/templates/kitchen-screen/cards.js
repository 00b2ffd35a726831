/* What stands on the screen for each cook, and for what cooks by itself. */

function el(tag, attributes = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name === "press") made.addEventListener("click", value);
    else if (value === true) made.setAttribute(name, "");
    else if (value !== false && value !== undefined) made.setAttribute(name, value);
  }
  made.append(...children.filter((child) => child !== null && child !== undefined && child !== ""));
  return made;
}

const button = (id, words, press, attributes = {}) =>
  el("button", { type: "button", id, press, ...attributes }, words);

function minutesWords(minutes) {
  const whole = Math.floor(minutes / 60);
  return whole ? `${whole} h ${String(minutes % 60).padStart(2, "0")} min` : `${minutes} min`;
}

/* Letters are seen; a screen reader hears the dish. */
function letters(task) {
  return (task.dishes || []).flatMap((dish) => [
    el("span", { class: "letter", "aria-hidden": "true" }, day.dishes[dish].letter), " "]);
}

function dishNames(task) {
  const names = (task.dishes || []).map((dish) => day.dishes[dish].title);
  return names.length ? el("p", { class: "dish" }, names.join(", ")) : null;
}

/* Text that a ticker keeps true every second. */
function countdown(minute, attributes = {}) {
  const until = state.begun + minute * MINUTE;
  return el("span", { role: "timer", class: "count", "data-until": until, ...attributes }, countWords(until));
}

function countWords(until) {
  const seconds = Math.round((until - Date.now()) / 1000);
  if (seconds <= -60) return `${minutesWords(Math.floor(-seconds / 60))} over`;
  if (seconds <= 0) return "time is up";
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
  if (hours) return `${hours} h ${String(minutes).padStart(2, "0")} min`;
  return minutes >= 10 ? `${minutes} min` : `${minutes}:${String(seconds % 60).padStart(2, "0")} min`;
}

function plannedWords(minute, planned) {
  return minute === planned ? "" : `, planned ${clockOf(planned)}`;
}

function untilWords(end, planned) {
  const until = minuteNow() > end ? "since" : "until";
  return el("span", { class: "until" }, ` ${until} ${clockOf(end)}${plannedWords(end, planned)}`);
}

function tellTask(task, i) {
  const parts = day.tasks.filter((each) => task.run && each.run === task.run && !each.wash);
  const place = parts.indexOf(task) + 1;
  return [
    el("h3", { id: `now-title-${i}` }, ...letters(task), task.title),
    parts.length > 1 && place ? el("p", { class: "small" }, `${place} of ${parts.length} done together`) : null,
    (task.amounts || []).length ? el("ul", { class: "amounts" }, ...task.amounts.map((each) => el("li", {}, each))) : null,
    task.bowl ? el("p", { class: "bowl" }, `Into the ${task.bowl}`) : null,
    dishNames(task),
    task.words ? el("p", { class: "words" }, task.words) : null,
  ];
}

/* The step that a cook is at, or the one to come. */
function nowOf(cook, times) {
  const open = day.tasks.map((_, i) => i).filter((i) => day.tasks[i].cook === cook && !isDone(i));
  const running = open.filter(isBegun);
  const order = (one, other) => times[one][0] - times[other][0] || one - other;
  return { at: running.sort(order)[0], next: open.filter((i) => !isBegun(i)).sort(order) };
}

function cookCard(cook, times) {
  const { at, next } = nowOf(cook, times);
  const shown = at === undefined ? next[0] : at;
  const following = at === undefined ? next.slice(1) : next;
  const card = el("article", { class: "now", "aria-labelledby": `cook-${cook}` },
    el("h2", { id: `cook-${cook}`, tabindex: "-1" }, day.cooks[cook]));
  if (shown === undefined) card.append(el("p", { class: "alldone" }, "All done."));
  else card.append(...(at === undefined ? waitingCard(cook, shown, times) : runningCard(cook, shown)).filter(Boolean));
  const coming = withSwitches(cook, following, times).slice(0, 3);
  if (coming.length) {
    card.append(el("h3", { class: "nexthead" }, "Next"), el("ol", { class: "next" }, ...coming.map((i) =>
      el("li", {}, el("b", {}, clockOf(times[i][0])), " ", el("span", {}, ...letters(day.tasks[i]), shortly(day.tasks[i])),
        button(`more-${i}`, "More", () => openMore(i), { "aria-label": `More about ${day.tasks[i].title}` })))));
  }
  return card;
}

function shortly(task) {
  return task.bowl ? `${task.title}, ${task.bowl}` : task.title;
}

/* What this cook must switch on stands among what is next. */
function withSwitches(cook, following, times) {
  const switches = day.tasks.map((_, i) => i).filter((i) =>
    day.tasks[i].switchOn && day.tasks[i].teller === cook && !isBegun(i));
  return [...following, ...switches].sort((one, other) => times[one][0] - times[other][0]);
}

function runningCard(cook, i) {
  const task = day.tasks[i];
  const end = state.started[i] + lastingOf(i);
  return [
    el("p", { class: "left" }, countdown(end, { "aria-label": "time left" }), untilWords(end, network.steps[i].end)),
    ...tellTask(task, i),
    el("div", { class: "acts" },
      button(`done-${cook}`, "Done", () => pressDone(i), { class: "big", "aria-describedby": `now-title-${i}` }),
      button(`five-${cook}`, "5 more min", () => needsMore(i, 5)),
      button(`more-${i}`, "More", () => openMore(i), { "aria-label": `More about ${task.title}` })),
  ];
}

function waitingCard(cook, i, times) {
  const task = day.tasks[i];
  const blocked = state.begun === null ? undefined : waitsFor(i, times);
  return [
    el("p", { class: "left" }, el("span", { class: "count" }, clockOf(times[i][0])),
      el("span", { class: "until" }, plannedWords(times[i][0], network.steps[i].start).replace(/^, /, " "))),
    ...tellTask(task, i),
    blocked === undefined ? null : el("p", { class: "words" }, `Waits for: ${day.tasks[blocked].title}`),
    state.begun === null ? null : el("div", { class: "acts" },
      button(`done-${cook}`, "Start now", () => act(`Started: ${task.title}`, () => startTask(i)),
        { class: "big", "aria-describedby": `now-title-${i}` }),
      button(`more-${i}`, "More", () => openMore(i), { "aria-label": `More about ${task.title}` })),
  ];
}

/* The step not over yet that ends last of those this one waits for. */
function waitsFor(i, times) {
  const open = network.into[i].filter((arc) => !isKept(arc));
  return open.map((arc) => arc.before).sort((one, other) => times[other][1] - times[one][1])[0];
}

function timerCard(i) {
  const task = day.tasks[i];
  const end = doneAt(i);
  const up = minuteNow() >= end;
  return el("article", { class: up ? "timer up" : "timer", "aria-labelledby": `timer-${i}` },
    el("h3", { id: `timer-${i}` }, ...letters(task), task.title),
    el("p", { class: "left" }, countdown(end, { "aria-label": `${task.title}, time left` }), untilWords(end, end)),
    task.words ? el("p", { class: "words" }, task.words) : null,
    up ? el("p", { class: "words" }, `${day.cooks[task.teller || 0]}: look whether it is done.`) : null,
    el("div", { class: "acts" },
      button(`timer-done-${i}`, "Done", () => pressDone(i), { class: "big", "aria-describedby": `timer-${i}` }),
      button(`timer-five-${i}`, "5 more min", () => needsMore(i, 5), { "aria-describedby": `timer-${i}` }),
      up && !state.quiet[`ends ${i}`] ? button(`timer-hush-${i}`, "Silence", () => hush(`ends ${i}`)) : null,
      button(`more-${i}`, "More", () => openMore(i), { "aria-label": `More about ${task.title}` })));
}

/* The timers once more, small, where they are seen from anywhere on the page. */
function timerLink(i) {
  const task = day.tasks[i];
  return el("a", { href: `#timer-${i}` }, ...letters(task), el("span", { class: "name" }, task.title), " ",
    countdown(doneAt(i), { role: false }));
}

const alarmsLink = (count) => el("a", { href: "#alarms", class: "urgent" }, `Do this now: ${count}`);

const byItself = () => day.tasks.map((_, i) => i)
  .filter((i) => day.tasks[i].cook === undefined && isRunning(i))
  .sort((one, other) => doneAt(one) - doneAt(other));
