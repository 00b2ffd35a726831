/* The page itself: what is shown when, the panel with more, and the second hand. */

const at = (id) => document.getElementById(id);
const announced = new Set();
let pressedAt = {};
let shownMinute = null;
let about = null;
let calling = [];
let freshAt = 0;
const NEAR = 2;

function say(words) {
  at("told").textContent = words;
}

/* A second press of a wet finger must not mark what came up under it. */
function pressDone(i) {
  const whose = String(day.tasks[i].cook);
  if (Date.now() - (pressedAt[whose] || 0) < 700) return;
  pressedAt[whose] = Date.now();
  act(`Done: ${day.tasks[i].title}`, () => finishTask(i));
}

function needsMore(i, minutes) {
  act(`${day.tasks[i].title} needed ${minutes} more minutes`, () => {
    note({ kind: "longer", task: day.tasks[i].id, title: day.tasks[i].title, minutes, text: `needed ${minutes} more minutes` });
    if (!isDone(i)) prolong(i, minutes);
  });
}

/* Everything anew, with the focus where it was, or at the head of where it was. */
function show() {
  const focused = document.activeElement;
  const home = focused && focused.closest("article, section") || null;
  const homeHead = home && home.querySelector("h2") ? home.querySelector("h2").id : "";
  const now = minuteNow();
  const times = timesAt(state.begun === null ? 0 : state.seen);
  shownMinute = now;
  const calls = state.begun === null ? [] : callsOf(times, now);
  showHead(times);
  showAlarms(calls);
  at("start").hidden = state.begun !== null;
  showLikely();
  const cooks = day.cooks.map((_, cook) => cook).filter((cook) => state.view === null || state.view === cook);
  at("cooks").replaceChildren(...cooks.map((cook) => cookCard(cook, times)));
  const timers = byItself();
  at("timers").hidden = !timers.length;
  at("timers").lastElementChild.replaceChildren(...timers.map(timerCard));
  const waiting = at("alarms").lastElementChild.childElementCount;
  at("strip").replaceChildren(...(waiting ? [alarmsLink(waiting)] : []), ...timers.map(timerLink));
  showSafety(times, now);
  showRest(times);
  showNotes();
  if (focused && focused.id && !focused.isConnected) {
    (at(focused.id) || at(homeHead) || at("cook-0") || document.body).focus();
  }
  call(calls);
}

function showHead(times) {
  const finish = Math.max(...times.map((time) => time[1]));
  const late = finish - day.finish;
  const how = late > 0 ? `, ${minutesWords(late)} late` : late < 0 ? `, ${minutesWords(-late)} early` : ", as planned";
  at("finish").textContent = `Done about ${clockOf(finish)}${how}`;
  at("undo").disabled = !past.length;
  at("undo").setAttribute("aria-label", past.length ? `Undo: ${past[past.length - 1].words}` : "Undo");
  const views = [[null, "Everyone"], ...day.cooks.map((name, cook) => [cook, name])];
  at("views").hidden = day.cooks.length < 2;
  at("views").replaceChildren(...views.map(([cook, name]) => button(`view-${cook}`, name,
    () => { state.view = cook; keep(); show(); }, { "aria-pressed": String(state.view === cook) })));
  tick();
}

function showAlarms(calls) {
  const cards = calls.map((each) => each.card).filter(Boolean);
  at("alarms").hidden = !cards.length;
  at("alarms").lastElementChild.replaceChildren(...cards);
}

function showSafety(times, now) {
  const found = state.begun === null ? [] : clockStates(times, now);
  const rank = { running: 0, paused: 1, later: 2 };
  const open = found.filter(({ phase }) => phase in rank).sort((one, other) => rank[one.phase] - rank[other.phase]);
  const met = found.filter(({ phase }) => phase === "met").length;
  const near = open.filter(({ phase }) => phase !== "later").length + NEAR;
  at("safety").hidden = !found.length;
  at("safe-now").replaceChildren(...open.slice(0, near).map(safetyItem),
    ...(met ? [el("li", { class: "met" }, `${met} in time so far`)] : []));
  at("safe-later").parentElement.hidden = open.length <= near;
  at("safe-later").replaceChildren(...open.slice(near).map(safetyItem));
}

function showRest(times) {
  if (!at("rest").open) return;
  const order = day.tasks.map((_, i) => i).sort((one, other) => times[one][0] - times[other][0] || one - other);
  at("rest").lastElementChild.replaceChildren(...order.map((i) => {
    const task = day.tasks[i];
    const who = task.cook === undefined ? "by itself" : day.cooks[task.cook];
    const how = state.dropped[i] ? "dropped" : isDone(i) ? "done" : isBegun(i) ? "now" : who;
    return el("li", { class: isDone(i) ? "over" : "" }, el("b", {}, clockOf(times[i][0])), " ",
      el("span", {}, ...letters(task), shortly(task), ` (${how})`),
      button(`all-${i}`, "More", () => openMore(i), { "aria-label": `More about ${task.title}` }));
  }));
}

function showNotes() {
  at("notes").replaceChildren(...state.notes.map((each) =>
    el("li", {}, `${each.at} ${each.title || each.what || ""}: ${each.text}`)));
  at("forward").checked = state.pullForward;
  at("keeping").textContent = kept
    ? "Progress is kept on this device, also when the page is closed."
    : "This browser keeps nothing: leave the page open, and save what happened before you close it.";
}

/* Rings, and reads out once what is new. */
function call(calls) {
  const fresh = calls.filter(({ key }) => !announced.has(key));
  fresh.forEach(({ key }) => announced.add(key));
  if (fresh.length) at("called").textContent = fresh.map(({ words }) => words).join(" ");
  if (fresh.some(({ card }) => card)) freshAt = Date.now();
  if (fresh.some(({ danger }) => danger) && !document.querySelector("dialog[open]")) window.scrollTo(0, 0);
  calling = calls.filter((each) => !each.quiet);
  ring(calling);
}

function openMore(i) {
  const task = day.tasks[i];
  about = i;
  at("more-head").replaceChildren(...letters(task), shortly(task));
  const times = timesAt(state.begun === null ? 0 : state.seen);
  at("more-when").textContent = `${clockOf(times[i][0])} to ${clockOf(times[i][1])}. ${task.words || ""}`;
  const acts = [];
  const add = (id, words, change) => acts.push(button(id, words, () => { closeMore(); act(`${words}: ${task.title}`, change); }));
  if (state.begun !== null && !isBegun(i)) add("more-start", "Started now", () => startTask(i));
  if (state.begun !== null && !isDone(i)) add("more-done", "Done now", () => finishTask(i));
  if (isRunning(i)) add("more-notyet", "Not started yet", () => notYet(i));
  if (isDone(i)) add("more-undone", "Not done after all", () => undoTask(i));
  at("more-acts").replaceChildren(...acts);
  at("more-made").hidden = Boolean(task.wash) || !(task.dishes || []).length;
  at("more-ago").hidden = state.begun === null || isDone(i);
  const boxes = (task.dishes || []).length === 1 ? day.dishes[task.dishes[0]].containers : 0;
  at("more-planned").value = boxes || "";
  at("more-count").value = "";
  at("more-text").value = "";
  at("more").showModal();
}

function closeMore() {
  at("more").close();
}

function onForm(id, change) {
  at(id).addEventListener("submit", (event) => {
    event.preventDefault();
    const i = about;
    closeMore();
    change(i, day.tasks[i]);
  });
}

onForm("more-longer", (i) => needsMore(i, Math.max(1, Math.round(Number(at("more-minutes").value)) || 1)));
onForm("more-ago", (i, task) => act(`Done: ${task.title}`, () =>
  finishTask(i, Math.max(1, Math.round(Number(at("more-past").value)) || 1))));
onForm("more-made", (i, task) => {
  const [made, planned] = [at("more-count").value, at("more-planned").value];
  if (made === "") return;
  const text = planned === "" ? `made ${made}` : `made ${made}, not ${planned}`;
  const dish = (task.dishes || []).map((each) => day.dishes[each].id);
  act(text, () => note({ kind: "made", task: task.id, title: task.title, dishes: dish,
    made: Number(made), planned: planned === "" ? null : Number(planned), text }));
});
onForm("more-note", (i, task) => {
  const text = at("more-text").value.trim();
  if (text) act(`Noted: ${text}`, () => note({ kind: "note", task: task.id, title: task.title, text }));
});

function tick() {
  const wall = new Date();
  at("wall").textContent = `${String(wall.getHours()).padStart(2, "0")}:${String(wall.getMinutes()).padStart(2, "0")}`;
  for (const each of document.querySelectorAll("[data-until]")) {
    const until = Number(each.dataset.until);
    const words = countWords(until);
    if (each.textContent !== words) each.textContent = words;
    each.classList.toggle("over", until <= Date.now());
  }
}

function everySecond() {
  tick();
  if (state.begun === null) return;
  if (minuteNow() !== shownMinute) {
    follow();
    keep();
    show();
  } else ring(calling);
}

/* What has just come up under a finger was not meant. */
at("alarms").addEventListener("click", (event) => {
  if (Date.now() - freshAt >= 700) return;
  event.stopPropagation();
  event.preventDefault();
}, true);
document.addEventListener("pointerdown", wakeSound);
document.addEventListener("keydown", wakeSound);
document.addEventListener("visibilitychange", () => { if (!document.hidden) everySecond(); });
at("begin").addEventListener("click", () => act("The day has begun.", beginDay));
at("undo").addEventListener("click", undo);
at("sound").addEventListener("click", () => {
  soundOn = !soundOn;
  at("sound").setAttribute("aria-pressed", String(soundOn));
  at("sound").textContent = soundOn ? "Sound on" : "Sound off";
});
at("save").addEventListener("click", saveDay);
at("forward").addEventListener("change", () => act("Changed how the day is timed", () => {
  state.pullForward = at("forward").checked;
  follow();
}));
at("rest").addEventListener("toggle", () => show());
at("more-close").addEventListener("click", closeMore);
at("afresh").addEventListener("click", () => at("sure").showModal());
at("sure-no").addEventListener("click", () => at("sure").close());
at("sure-yes").addEventListener("click", () => {
  at("sure").close();
  state = freshState();
  past = [];
  announced.clear();
  keep();
  show();
});

recall();
follow();
at("begin-words").textContent = "On the day itself the clock on the wall counts; on any other day the plan starts when you press.";
show();
setInterval(everySecond, 1000);
window.kitchenScreen = { day, network, networkOf, retime, timesAt, clockStates, minuteNow, whatHappened, finishesFrom, state: () => state };
document.documentElement.dataset.ready = "yes";
