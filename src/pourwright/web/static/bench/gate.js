// Which presses count: not the second of a double press, not one meant for the screen before.
const TWICE_MS = 350;
const DEAF_MS = 700;
const LIFTED_MS = 60;

export function gate() {
  let pressed = -Infinity;
  let changed = -Infinity;
  let down = false;

  addEventListener("pointerdown", () => { down = true; }, true);
  for (const name of ["pointerup", "pointercancel"]) {
    addEventListener(name, () => setTimeout(() => { down = false; }, LIFTED_MS), true);
  }

  /** Whether a press now counts; one on what is always in its place need not wait for the screen. */
  function lets(always = false) {
    const moment = performance.now();
    if (moment - pressed < TWICE_MS || (!always && moment - changed < DEAF_MS)) return false;
    pressed = moment;
    return true;
  }

  return {
    lets,
    deafen: () => { changed = performance.now(); },
    /** A finger on the screen holds the pads under it still. */
    finger: () => down,
  };
}
