/* What must have happened, as something that can only come after it has: nobody pressed it. */

/* What a step waits for whoever does it; an oven counts, a cook who was to do another first does not. */
const comesAfter = (i) => network.into[i].filter((arc) => !arc.resources.length || day.tasks[arc.before].switchOn);

const isByItself = (i) => day.tasks[i].cook === undefined;

/* Everything that a step begun or done can only come after has begun, or is over, as well. */
function settleBefore(i) {
  for (const arc of comesAfter(i)) {
    const at = arc.to === 0 ? state.started[i] : state.ended[i];
    if (at === undefined) continue;
    const by = Math.max(0, at - Math.max(0, arc.least));
    if (arc.origin === 1 && (arc.least >= 0 || arc.to === 1)) settleOver(arc.before, by);
    else if (arc.origin === 0 && arc.least >= 0) settleBegun(arc.before, by);
  }
}

/* What begins by itself began when all was there; else as late as it can have. */
function settleBegun(i, by, minutes = 0) {
  if (isBegun(i)) return;
  const known = isByItself(i) ? readyAt(i) : undefined;
  state.started[i] = known === undefined ? Math.max(0, by - minutes) : Math.min(known, by);
  state.assumed[i] = true;
  delete state.waiting[i];
  settleBefore(i);
}

/* By itself it was over when its time was up; by hand, when what comes after it began. */
function settleOver(i, by) {
  if (isDone(i)) return;
  settleBegun(i, by, plannedMinutes(i));
  state.started[i] = Math.min(state.started[i], by);
  state.ended[i] = isByItself(i) ? Math.min(by, state.started[i] + lastingOf(i)) : by;
  state.assumed[i] = true;
  settleBefore(i);
}

/* When all that a step waits for had come, as far as it was marked; undefined where it was not. An
   oven was hot when its time was up. */
function readyAt(i) {
  const known = comesAfter(i).filter(({ before, to }) => to === 0 && (isBegun(before) || !day.tasks[before].switchOn));
  const at = Math.max(...known.map(({ before, origin, least }) => {
    if (origin === 0) return isBegun(before) ? state.started[before] + least : NaN;
    if (isDone(before)) return state.ended[before] + least;
    return day.tasks[before].switchOn ? state.started[before] + lastingOf(before) : NaN;
  }));
  return Number.isFinite(at) ? at : undefined;
}

/* Once something stands in the oven, an oven whose time is up is hot. */
function settleHeat(i, at) {
  const next = network.arcs.filter((arc) => arc.before === i && !arc.resources.length && isByItself(arc.after));
  for (const { after } of next) {
    for (const { before } of network.into[after]) {
      const up = isRunning(before) ? state.started[before] + lastingOf(before) : Infinity;
      if (day.tasks[before].switchOn && up <= at) state.ended[before] = up;
    }
  }
}
