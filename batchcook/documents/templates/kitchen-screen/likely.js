/* How sure the finish is from here on: many days go on from this minute, each with other
   durations, as on paper and in the terminal. Nobody foresees which step will take long. */

const LIKELY_DAYS = 500;
const TOLD_ANEW = 15;
const STEP = 5;
let factors = null;
let likelyFor = "";

/* Numbers from 0 to 1 that are the same whenever the page is opened (mulberry32). */
function numbersFrom(seed) {
  let at = seed;
  return () => {
    at = (at + 0x6D2B79F5) | 0;
    let mixed = Math.imul(at ^ (at >>> 15), at | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/* A factor on a duration: triangular by its inverse, or lognormal by Box and Muller. */
function drawn(spread, next) {
  if (spread.length === 2) {
    const [median, sigma] = spread;
    return median * Math.exp(sigma * Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()));
  }
  const [low, mode, high] = spread;
  if (low === high) return mode;
  const [share, width] = [next(), high - low];
  return share * width <= mode - low
    ? low + Math.sqrt(share * width * (mode - low))
    : high - Math.sqrt((1 - share) * width * (high - mode));
}

/* The minutes at which so many days are done, in order. A step keeps its draws all day. */
function finishesFrom(now) {
  factors = factors || day.tasks.map(({ vary }, i) => {
    const next = numbersFrom(i + 1);
    return Float32Array.from({ length: LIKELY_DAYS }, () => drawn(day.spreads[vary], next));
  });
  const fixed = fixedSteps();
  const planned = new Map(Object.entries(state.longer).map(([i, minutes]) => [Number(i), minutes]));
  const due = retime(network, planned, { fixed, now });
  const floors = network.steps.map((step, i) => Math.max(step.floor, now, day.tasks[i].timed ? due[i][0] : 0));
  const finishes = new Float64Array(LIKELY_DAYS);
  for (let number = 0; number < LIKELY_DAYS; number += 1) {
    const lasting = network.steps.map((_, i) => lastingOf(i) * factors[i][number]);
    const begun = new Map();
    for (const [i, [start, end]] of fixed) begun.set(i, [start, end === null ? Math.max(start + lasting[i], now) : end]);
    finishes[number] = earliest(network, lasting, floors, begun).reduce((last, [, end]) => Math.max(last, end), 0);
  }
  return finishes.sort();
}

/* The time of day, rounded up to a step of the clock: spreads are not known to the minute. */
function roundedUp(minute) {
  const [, , , , first] = day.start;
  const whole = Math.ceil(minute - 1e-6);
  const at = state.begun === null ? first : new Date(state.begun).getMinutes();
  const over = (at + whole) % STEP;
  return clockOf(whole + (over ? STEP - over : 0));
}

function likelyWords(finishes) {
  const by = (share) => roundedUp(finishes[Math.ceil(share * finishes.length) - 1]);
  const [half, most] = [by(0.5), by(0.9)];
  return half === most ? `done by ${half} in nine of ten days` : `done by ${half} in half of all days, by ${most} in nine of ten`;
}

/* Reckoned anew when something was marked, or a quarter of an hour has gone; after the press is seen. */
function showLikely() {
  at("likely").hidden = state.begun === null || day.tasks.every((_, i) => isDone(i));
  if (at("likely").hidden) return;
  const now = minuteNow();
  const key = JSON.stringify([state.begun, state.ended, state.longer, Math.floor(now / TOLD_ANEW)]);
  if (key === likelyFor) return;
  likelyFor = key;
  setTimeout(() => {
    if (likelyFor === key) at("likely").textContent = `From here on: ${likelyWords(finishesFrom(now))}.`;
  }, 0);
}
