/* What is heard: a ring that repeats until somebody answers it. Browsers let a page make a sound
   only after a press, so the first press of the day wakes it. */

const AGAIN = 8000;
let audio = null;
let soundOn = true;
let rangAt = 0;

function wakeSound() {
  try {
    if (!audio) audio = new AudioContext();
    if (audio.state === "suspended") audio.resume();
  } catch {
    audio = null;
  }
  if (navigator.wakeLock) navigator.wakeLock.request("screen").catch(() => {});
}

function beep(after, pitch) {
  const tone = audio.createOscillator();
  const loud = audio.createGain();
  const from = audio.currentTime + after;
  tone.type = "square";
  tone.frequency.value = pitch;
  loud.gain.setValueAtTime(0.0001, from);
  loud.gain.exponentialRampToValueAtTime(0.25, from + 0.02);
  loud.gain.setValueAtTime(0.25, from + 0.22);
  loud.gain.exponentialRampToValueAtTime(0.0001, from + 0.28);
  tone.connect(loud).connect(audio.destination);
  tone.start(from);
  tone.stop(from + 0.3);
}

/* Rings while anything calls and has not been silenced; food in danger rings higher. */
function ring(calls) {
  const loud = calls.filter((call) => !state.quiet[call.key]);
  if (!loud.length || Date.now() - rangAt < AGAIN) return;
  rangAt = Date.now();
  const touched = !navigator.userActivation || navigator.userActivation.hasBeenActive;
  if (navigator.vibrate && touched) navigator.vibrate([300, 150, 300]);
  if (!audio || !soundOn) return;
  const pitch = loud.some((call) => call.danger) ? 1320 : 880;
  [0, 0.4, 0.8].forEach((after) => beep(after, pitch));
}
