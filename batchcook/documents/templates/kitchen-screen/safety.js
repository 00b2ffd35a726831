/* Food out of the refrigerator: its clocks, and what to do before and after one runs out. */

/* A moment of a food's day: its minute, as far as is known, and whether it has come. */
function momentsOf(track, times, now) {
  let at = -Infinity;
  let came = true;
  return track.moments.map(([task, anchor, offset]) => {
    at = Math.max(at, times[task][anchor] + offset);
    came = came && at <= now && (anchor === 0 ? isBegun(task) : isDone(task));
    return { at, came };
  });
}

/* Minutes in which the last spell did not count: held hot, or back in the refrigerator. */
function pausedMinutes(pauses, since, now) {
  return pauses.reduce((sum, { from, to }) =>
    sum + Math.max(0, (to === null ? now : to) - Math.max(from, since)), 0);
}

/* One track: is its food out, until when may it be, and when will it be safe. */
function trackState(track, pauses, times, now) {
  const moments = momentsOf(track, times, now);
  const [first, last] = track.spells[track.spells.length - 1];
  const earlier = track.spells.slice(0, -1).reduce((sum, [from, to]) =>
    sum + moments[to].at - moments[from].at, 0);
  const since = moments[first].at;
  return {
    runsOut: since + track.budget - earlier + pausedMinutes(pauses, since, now),
    arrival: moments[last].at,
    out: moments[first].came,
    safe: moments[last].came,
  };
}

const spellOf = ({ moments, spells }) => spells[spells.length - 1].map((place) => moments[place]);

/* Whether a food is in the vessel with the rest: what is put straight into it, and not into a bowl. */
function isMixedIn(clock) {
  return !clock.whole && clock.tracks.length > 0 && clock.tracks.every((track) => {
    const [[task]] = spellOf(track);
    return !day.tasks[task].bowl && isDone(task);
  });
}

/* A vessel has one alarm: what is mixed in is told by the clock of the whole that counts it as well. */
function isToldByWhole(k) {
  const clock = day.clocks[k];
  const counts = (whole, track) => whole.tracks.some((other) => JSON.stringify(spellOf(other)) === JSON.stringify(spellOf(track)));
  return isMixedIn(clock) && day.clocks.some((whole) => whole.whole && whole.dish === clock.dish
    && whole.task === clock.task && clock.tracks.every((track) => counts(whole, track)));
}

/* phase: later, running, paused, met, missed, mixed in with what is watched as a whole, or settled
   once the cook has said what became of it. */
function clockState(k, times, now) {
  const clock = day.clocks[k];
  const said = state.food[k] || {};
  const pauses = said.pauses || [];
  const tracks = clock.tracks.length
    ? clock.tracks.map((track) => trackState(track, pauses, times, now))
    : [{
      runsOut: clock.at + pausedMinutes(pauses, 0, now), arrival: times[clock.task][1],
      out: isBegun(clock.task), safe: isDone(clock.task),
    }];
  const open = tracks.filter((track) => !track.safe);
  const watched = open.length ? open : tracks;
  const runsOut = Math.min(...watched.map((track) => track.runsOut));
  const arrival = Math.max(...watched.map((track) => track.arrival));
  const overrun = tracks.some((track) => track.out && (track.safe ? track.arrival > track.runsOut : now >= track.runsOut));
  const paused = pauses.some(({ to }) => to === null);
  return { k, clock, runsOut, arrival, how: paused ? pauses[pauses.length - 1].how : "",
    phase: phaseOf(said, { mixed: isToldByWhole(k), overrun, paused, tracks, open }) };
}

function phaseOf(said, { mixed, overrun, paused, tracks, open }) {
  if (said.settled) return "settled";
  if (mixed) return "mixed";
  if (overrun) return "missed";
  if (!open.length) return "met";
  if (paused) return "paused";
  return tracks.some((track) => track.out && !track.safe) ? "running" : "later";
}

function clockStates(times, now) {
  return day.clocks.map((_, k) => clockState(k, times, now)).sort((one, other) =>
    one.runsOut - other.runsOut || one.k - other.k);
}

const placeOf = (clock) => clock.where === "cold" ? "in the refrigerator" : "on the heat";

/* What to do while there is time: never only a warning. */
function whatToDo(clock) {
  if (clock.state === "browned") return "It is not cooked through: on to its final cooking at once. It may not wait.";
  if (clock.state === "cold" && clock.where === "cold") return "Into the refrigerator now, packed or not: there its time stands still.";
  if (clock.state === "cold") return "Put it on the heat now, or back into the refrigerator now: there its time stands still.";
  const hold = `keep it hot at ${day.hot} or above, by the thermometer, until you can`;
  return clock.where === "cold"
    ? `Into shallow containers and refrigerate it now; or ${hold}.`
    : `Put it on the heat now, or ${hold}; or refrigerate it now.`;
}

/* What to do once the time is up. */
function whatNow(clock) {
  const kept = clock.state === "browned" ? "it went straight on in time"
    : clock.state === "cold" ? `it was back in the refrigerator${clock.where === "cold" ? "" : ", or on the heat"} in time`
      : `it was held at ${day.hot} or above, or in the refrigerator, in time`;
  return `Throw it out, unless ${kept}. Do not taste it; ${day.throwOut.replace(/^throw it out; /, "")}.`;
}

/* Waits that the plan limits for other reasons: what stands ready, and is late for what follows. */
function lateWaits(times, now) {
  const straight = new Set(day.clocks.filter((clock) => clock.state === "browned").map((clock) => clock.task));
  return network.limits.filter((limit) => {
    if (limit.before === null || !limit.told || !limit.reason || straight.has(limit.after)) return false;
    const needsMore = limit.origin === 0 && has(state.longer, limit.before);
    const begun = limit.origin === 1 ? isDone(limit.before) : isBegun(limit.before);
    const over = limit.to === 1 ? isDone(limit.after) : isBegun(limit.after);
    return begun && !over && !needsMore && overOf(limit, times) > 0 && !state.dropped[limit.after];
  }).map((limit) => ({ limit, runsOut: times[limit.before][limit.origin] + limit.most, over: overOf(limit, times) }))
    .filter((wait, i, all) => all.findIndex((each) => each.limit.before === wait.limit.before
      && each.limit.after === wait.limit.after) === i);
}

function pauseFood(k, how) {
  const said = state.food[k] || (state.food[k] = {});
  said.pauses = [...(said.pauses || []), { from: minuteNow(), to: null, how }];
  note({ kind: "food", what: day.clocks[k].what, text: how });
}

function resumeFood(k) {
  for (const pause of state.food[k].pauses) if (pause.to === null) pause.to = minuteNow();
  note({ kind: "food", what: day.clocks[k].what, text: "out again" });
}

function settleFood(k, text) {
  state.food[k] = { ...(state.food[k] || {}), settled: text, at: minuteNow() };
  note({ kind: "food", what: day.clocks[k].what, text });
}
