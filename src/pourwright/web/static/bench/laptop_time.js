// The laptop's time as this device knows it: its own clock and how far off that is.
const MOST_SAMPLES = 6;
const JUMP_MS = 1500;
const JUMPS_BELIEVED = 3;

let offset = 0;
let samples = [];
let jumps = 0;
let weak = true;

export const now = () => Date.now() + offset;
export const offsetMs = () => offset;
export const stamp = () => new Date(now()).toISOString();
/** A moment of the laptop, as it writes it or in its milliseconds, in this device's own. */
export const here = (moment) => (typeof moment === "string" ? Date.parse(moment) : moment) - offset;

/** An offset kept or guessed, until the laptop's next beat. */
export function assume(guess) {
  offset = guess;
  samples = [guess];
  weak = true;
}

/** The laptop said its time just now. A late message only ever makes it look slow, so the fastest
 * of the last few is right; a slower one is believed once it comes again and again. */
export function heard(iso) {
  const found = Date.parse(iso) - Date.now();
  jumps = offset - found > JUMP_MS ? jumps + 1 : 0;
  if (weak || found - offset > JUMP_MS || jumps >= JUMPS_BELIEVED) {
    samples = [];
    jumps = 0;
    weak = false;
  }
  if (jumps) return;
  samples = [...samples, found].slice(-MOST_SAMPLES);
  offset = Math.max(...samples);
}
