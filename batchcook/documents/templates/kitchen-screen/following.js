/* The day as it really goes: what has begun, what is done, and when the rest will be. */

const day = JSON.parse(document.getElementById("day").textContent);
const network = networkOf(day.network);
const MINUTE = 60000;

/* begun: the instant of minute 0, once the day has begun. seen: the minute up to which it was
   followed. started, ended, longer: minutes by task. waiting: what was said not to have started. assumed:
   what was said to be done without having started. A day planned anew has begun already, with what was done by then. */
function freshState() {
  const over = day.past.filter(([, , end]) => end !== null);
  return {
    begun: day.past.length ? instantOfStart() : null, seen: day.since,
    started: Object.fromEntries(day.past), ended: Object.fromEntries(over.map(([i, , end]) => [i, end])),
    longer: {}, waiting: {}, assumed: {}, dropped: {}, notes: [], food: {}, quiet: {}, pullForward: true, view: null,
  };
}

let state = freshState();

function plannedInstant() {
  const [year, month, date, hour, minute] = day.start;
  return new Date(year, month - 1, date, hour, minute).getTime();
}

function minuteNow() {
  return state.begun === null ? 0 : Math.max(0, Math.floor((Date.now() - state.begun) / MINUTE));
}

/* On the planned date the clock on the wall counts; on any other the plan goes on from now. */
function instantOfStart() {
  const planned = plannedInstant();
  const sameDay = new Date(planned).toDateString() === new Date().toDateString();
  const since = day.since * MINUTE;
  return sameDay && planned + since <= Date.now() ? planned : Math.floor(Date.now() / MINUTE) * MINUTE - since;
}

function beginDay() {
  state.begun = instantOfStart();
  state.seen = minuteNow();
  follow();
}

function clockOf(minute) {
  const at = new Date((state.begun === null ? plannedInstant() : state.begun) + minute * MINUTE);
  return `${String(at.getHours()).padStart(2, "0")}:${String(at.getMinutes()).padStart(2, "0")}`;
}

const has = (table, i) => Object.prototype.hasOwnProperty.call(table, i);
const isBegun = (i) => has(state.started, i);
const isDone = (i) => has(state.ended, i);
const isRunning = (i) => isBegun(i) && !isDone(i);

function plannedMinutes(i) {
  return network.steps[i].end - network.steps[i].start;
}

function lastingOf(i) {
  return has(state.longer, i) ? state.longer[i] : plannedMinutes(i);
}

/* When to be there: a bake is taken out a little before its oven is free. */
const doneAt = (i) => state.started[i] + lastingOf(i) - (day.tasks[i].early || 0);

function fixedSteps() {
  return new Map(Object.keys(state.started).map((name) =>
    [Number(name), [state.started[name], isDone(name) ? state.ended[name] : null]]));
}

/* Minutes by which the cook who is furthest ahead is ahead of the plan: so much earlier may the
   rest begin, where the network lets it. */
function leadOf() {
  if (!state.pullForward) return 0;
  const last = new Map();
  for (const name of Object.keys(state.ended)) {
    const i = Number(name);
    if (state.dropped[i]) continue;
    const whose = day.tasks[i].cook === undefined ? `task ${i}` : day.tasks[i].cook;
    if (day.tasks[i].cook === undefined) continue;
    const known = last.get(whose);
    if (known === undefined || state.ended[i] > state.ended[known]) last.set(whose, i);
  }
  return Math.max(0, ...[...last.values()].map((i) => network.steps[i].end - state.ended[i]));
}

function timesAt(now) {
  const longer = new Map(Object.entries(state.longer).map(([i, minutes]) => [Number(i), minutes]));
  return retime(network, longer, { fixed: fixedSteps(), now, asScheduled: true, lead: leadOf() });
}

/* Whether what an arc waits for has happened; what may begin before another ends waits for its start. */
const isKept = (arc) => arc.origin === 1 && arc.least >= 0 ? isDone(arc.before) : isBegun(arc.before);

/* Whether all that a step waits for has really happened, and its cook is free. */
function isReady(i) {
  if (isBegun(i) || state.waiting[i] || day.tasks[i].switchOn) return false;
  const { cook } = day.tasks[i];
  if (cook !== undefined && day.tasks.some((task, k) => task.cook === cook && isRunning(k))) return false;
  return network.into[i].every(isKept);
}

/* Steps whose turn it is begin by themselves, each at its own minute, up to now. */
function follow() {
  if (state.begun === null) return;
  const now = minuteNow();
  for (;;) {
    const times = timesAt(state.seen);
    const ready = network.steps.map((_, i) => i).filter((i) => times[i][0] <= now && isReady(i));
    if (!ready.length) break;
    const next = ready.reduce((one, other) => times[other][0] < times[one][0] ? other : one);
    state.started[next] = times[next][0];
    state.seen = Math.max(state.seen, times[next][0]);
  }
  state.seen = Math.max(state.seen, now);
}

function startTask(i) {
  delete state.waiting[i];
  state.started[i] = minuteNow();
  settleBefore(i);
  follow();
}

/* It was thought to have begun and has not; nor has what begins together with it. */
function notYet(i) {
  delete state.started[i];
  state.waiting[i] = true;
  for (const limit of network.limits) {
    const together = limit.after === i && limit.origin === 0 && limit.to === 0 && limit.most === 0;
    if (together && limit.before !== null && isRunning(limit.before)) delete state.started[limit.before];
  }
}

/* Done, now or some minutes ago. */
function finishTask(i, ago = 0) {
  const now = minuteNow();
  const at = Math.max(0, now - ago);
  if (!isBegun(i)) {
    state.started[i] = Math.max(0, at - plannedMinutes(i));
    state.assumed[i] = true;
  }
  state.started[i] = Math.min(state.started[i], at);
  state.ended[i] = at;
  delete state.waiting[i];
  settleBefore(i);
  settleHeat(i, at);
  state.seen = Math.min(state.seen, at);
  follow();
}

function undoTask(i) {
  delete state.ended[i];
  delete state.dropped[i];
  follow();
}

/* Runs on for more minutes than it has lasted, or was to last. */
function prolong(i, minutes) {
  const now = minuteNow();
  const start = isBegun(i) ? state.started[i] : timesAt(state.seen)[i][0];
  state.longer[i] = Math.max(lastingOf(i), now - start) + minutes;
  delete state.quiet[`ends ${i}`];
  follow();
}

/* What is left to do for a dish alone is not done any more. */
function dropDish(dish) {
  const now = minuteNow();
  day.tasks.forEach((task, i) => {
    const only = (task.dishes || []).length === 1 && task.dishes[0] === dish;
    if (!only || isDone(i) || task.technique === "wash" || task.wash) return;
    state.started[i] = isBegun(i) ? state.started[i] : now;
    state.ended[i] = now;
    state.dropped[i] = true;
  });
  follow();
}

function note(entry) {
  state.notes.push({ at: clockOf(minuteNow()), minute: minuteNow(), ...entry });
}
