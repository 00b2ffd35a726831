/* What survives a reload, what can be taken back, and what goes out for later. */

const UNDO = 12;
let past = [];
let kept = true;

function keep() {
  try {
    localStorage.setItem(day.key, JSON.stringify({ state, past }));
    kept = true;
  } catch {
    kept = false;
  }
}

function recall() {
  try {
    const found = JSON.parse(localStorage.getItem(day.key));
    if (found) {
      state = { ...freshState(), ...found.state };
      past = found.past || [];
    }
    localStorage.setItem(`${day.key}-try`, "1");
    localStorage.removeItem(`${day.key}-try`);
  } catch {
    kept = false;
  }
}

/* Every press goes through here, so that every press can be taken back. */
function act(words, change) {
  past = [...past, { words, state: JSON.stringify(state) }].slice(-UNDO);
  change();
  keep();
  say(words);
  show();
}

function undo() {
  const last = past.pop();
  if (!last) return;
  const { seen } = state;
  state = JSON.parse(last.state);
  state.seen = Math.max(state.seen, Math.min(seen, minuteNow()));
  follow();
  keep();
  say(`Taken back: ${last.words}`);
  show();
}

/* What was marked, in the order in which it happened, at the plan's own clock. */
function marksOf() {
  const wall = (minute) => {
    const at = new Date(plannedInstant() + minute * MINUTE);
    const two = (number) => String(number).padStart(2, "0");
    return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}T${two(at.getHours())}:${two(at.getMinutes())}:00`;
  };
  const marks = [];
  day.tasks.forEach(({ id }, i) => {
    if (state.dropped[i] || !isBegun(i)) return;
    if (!state.assumed[i]) marks.push([state.started[i], { kind: "start", task: id }]);
    if (isDone(i)) marks.push([state.ended[i], { kind: "done", task: id }]);
    else if (lastingOf(i) > plannedMinutes(i)) marks.push([state.started[i], { kind: "late", task: id, minutes: lastingOf(i) - plannedMinutes(i) }]);
  });
  for (const { minute, task, title, what, text } of state.notes) {
    marks.push([minute, { kind: "note", task: task || "", words: task || !what ? text : `${what}: ${text}` }]);
  }
  return marks.sort((one, other) => one[0] - other[0]).map(([minute, mark]) => ({ ...mark, at: wall(minute) }));
}

/* Whether both its start and its end were seen on this page, so that its real time is known. */
function isTimed(i) {
  return isDone(i) && !state.dropped[i] && !state.assumed[i] && !day.past.some(([past]) => past === i);
}

/* The day as it went. Real minutes of hands-on work stand beside the planned ones. */
function whatHappened() {
  const instant = (minute) => minute === undefined ? null : clockOf(minute);
  return {
    format: "batchcook-day/1",
    plan: day.key,
    date: day.date,
    began: state.begun === null ? null : clockOf(0),
    tasks: day.tasks.map((task, i) => ({
      id: task.id,
      technique: task.technique,
      hands_on: task.cook !== undefined,
      marked: isTimed(i),
      pace: task.pace === undefined ? 1 : task.pace,
      planned_start_minute: network.steps[i].start,
      planned_minutes: plannedMinutes(i),
      started: instant(state.started[i]),
      ended: instant(state.ended[i]),
      start_minute: has(state.started, i) ? state.started[i] : null,
      real_minutes: isDone(i) && !state.dropped[i] ? state.ended[i] - state.started[i] : null,
      dropped: Boolean(state.dropped[i]),
    })),
    marks: marksOf(),
    notes: state.notes,
    food: Object.entries(state.food).map(([k, said]) => ({
      what: day.clocks[k].what,
      task: day.tasks[day.clocks[k].task].id,
      settled: said.settled || null,
      pauses: (said.pauses || []).map(({ from, to, how }) => ({ from: instant(from), to: to === null ? null : instant(to), how })),
    })),
  };
}

function saveDay() {
  const text = `${JSON.stringify(whatHappened(), null, 1)}\n`;
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  link.download = `day-${day.date}.json`;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  say("What happened is saved as a file.");
}
