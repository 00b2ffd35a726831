/* Times over the network behind the day, from how long the steps really take.
   Steps are numbers in an order in which every arc leads forward; 0 is a start, 1 an end. */

function networkOf(packed) {
  const network = {
    steps: packed.steps.map(([start, end, floor, away]) => ({ start, end, floor, away })),
    arcs: packed.arcs.map(([before, origin, after, to, least, resources]) =>
      ({ before, origin, after, to, least, resources })),
    limits: packed.limits.map(([before, origin, after, to, most, reason, told]) =>
      ({ before, origin, after, to, most, reason, told })),
    holds: packed.holds,
  };
  network.into = network.steps.map(() => []);
  for (const arc of network.arcs) network.into[arc.after].push(arc);
  network.closers = new Map();
  for (const [resource, openers, closer] of network.holds) {
    for (const opener of openers) {
      const key = `${opener}/${resource}`;
      network.closers.set(key, [...(network.closers.get(key) || []), closer]);
    }
  }
  return network;
}

/* When everything starts and ends, as early as the network lets it.
   longer: minutes of steps that last longer or shorter than planned.
   fixed: steps begun, with their start and their end (null where they still run).
   now: what has not begun starts no earlier, what has not ended ends no earlier.
   asScheduled: nothing starts before its minute in the plan, less the minutes of a lead. */
function retime(network, longer, { fixed = new Map(), now = 0, asScheduled = false, lead = 0 } = {}) {
  const lasting = network.steps.map((step, i) => longer.has(i) ? longer.get(i) : step.end - step.start);
  const begun = new Map();
  for (const [i, [start, end]] of fixed) {
    begun.set(i, [start, end === null ? Math.max(start + lasting[i], now) : end]);
  }
  const floors = network.steps.map((step) =>
    Math.max(step.floor, now, asScheduled ? step.start - lead : 0));
  const held = network.limits.filter((limit) =>
    limit.before !== null && !begun.has(limit.before) && leastOf(network, limit, lasting) <= limit.most);
  return holding(network, lasting, floors, begun, held);
}

/* The earliest times that keep the limits; of those that clash the least is given up. */
function holding(network, lasting, floors, begun, held) {
  const raised = [...floors];
  let times = [];
  let pushing = [];
  let repeats = 0;
  for (let round = 0; round < held.length + 2; round += 1) {
    times = earliest(network, lasting, raised, begun);
    const broken = held.filter((limit) => overOf(limit, times) > 0);
    if (broken.length === 0) return times;
    const same = broken.length === pushing.length && broken.every((limit, i) => limit === pushing[i]);
    repeats = same ? repeats + 1 : 0;
    pushing = broken;
    if (repeats === 8) break;
    for (const limit of broken) {
      const start = times[limit.before][0] + overOf(limit, times);
      raised[limit.before] = Math.max(raised[limit.before], start);
    }
  }
  const weight = (limit) => [limit.told ? 1 : 0, limit.reason ? 1 : 0, -overOf(limit, times)];
  const least = pushing.reduce((one, other) => comesFirst(weight(other), weight(one)) ? other : one);
  return holding(network, lasting, floors, begun, held.filter((limit) => limit !== least));
}

function comesFirst(one, other) {
  const place = one.findIndex((value, i) => value !== other[i]);
  return place >= 0 && one[place] < other[place];
}

function overOf(limit, times) {
  const origin = limit.before === null ? 0 : times[limit.before][limit.origin];
  return times[limit.after][limit.to] - origin - limit.most;
}

/* Start and end of each step as early as arcs, floors and times away allow. Where a step began
   before one that should have handed it something, whoever gets that next comes after both. */
function earliest(network, lasting, floors, begun) {
  const claims = new Map();
  const times = [];
  const bound = (arc) => {
    let at = times[arc.before][arc.origin] + arc.least;
    if (claims.size) for (const resource of arc.resources) {
      const claim = claims.get(`${arc.before}/${resource}`);
      if (claim !== undefined) at = Math.max(at, claim);
    }
    return at;
  };
  const passOn = (i) => {
    for (const arc of network.into[i]) {
      const at = bound(arc);
      for (const resource of arc.resources) {
        for (const closer of network.closers.get(`${i}/${resource}`) || [i]) {
          const key = `${closer}/${resource}`;
          claims.set(key, Math.max(claims.has(key) ? claims.get(key) : at, at));
        }
      }
    }
  };
  network.steps.forEach((step, i) => {
    if (begun.has(i)) {
      times[i] = begun.get(i);
      passOn(i);
      return;
    }
    let start = floors[i];
    for (const arc of network.into[i]) {
      start = Math.max(start, bound(arc) - (arc.to === 1 ? lasting[i] : 0));
    }
    for (const [leaves, returns] of step.away) {
      if (start < returns && start + lasting[i] > leaves) start = returns;
    }
    times[i] = [start, start + lasting[i]];
  });
  return times;
}

/* The fewest minutes that a limited time takes, by the arcs between its ends alone. */
function leastOf(network, limit, lasting) {
  const reached = new Map([[limit.before, limit.origin === 0 ? 0 : -lasting[limit.before]]]);
  for (let i = 0; i < network.steps.length; i += 1) {
    if (i === limit.before) continue;
    const bounds = network.into[i].filter((arc) => reached.has(arc.before)).map((arc) =>
      reached.get(arc.before) + (arc.origin === 1 ? lasting[arc.before] : 0) + arc.least
      - (arc.to === 1 ? lasting[i] : 0));
    if (bounds.length) reached.set(i, Math.max(...bounds));
  }
  if (!reached.has(limit.after)) return -Infinity;
  return reached.get(limit.after) + (limit.to === 1 ? lasting[limit.after] : 0);
}
