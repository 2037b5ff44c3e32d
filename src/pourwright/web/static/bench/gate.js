// Which presses count: not the second of a double press, not one meant for the screen before.
const BOUNCE_MS = 120;
const TWICE_MS = 350;
const DEAF_MS = 700;
// An answer that was waited for is met with an open eye: only a press already on its way is caught.
const DEAF_TO_ANSWER_MS = 300;
const LIFTED_MS = 60;
const TOO_SOON = "Too soon: press again";
const TWICE = "Too soon: only the first press counts";

/** `swallowed(words)` is told each press of a person that does not count. */
export function gate(swallowed) {
  const deaf = { main: -Infinity, side: -Infinity };
  let pressed = -Infinity;
  let down = false;

  addEventListener("pointerdown", () => { down = true; }, true);
  for (const name of ["pointerup", "pointercancel"]) {
    addEventListener(name, () => setTimeout(() => { down = false; }, LIFTED_MS), true);
  }

  /** Whether a press now counts, on the "main" pad or a "side" pad; what is "fixed" in its place
   * need not wait for the screen. */
  function lets(place) {
    const moment = performance.now();
    const since = moment - pressed;
    if (since < TWICE_MS) {
      if (since >= BOUNCE_MS) swallowed(TWICE);
      return false;
    }
    if (moment < (deaf[place] ?? -Infinity)) {
      swallowed(TOO_SOON);
      return false;
    }
    pressed = moment;
    return true;
  }

  /** The pads of these places changed by themselves, or as the answer to a press that waited. */
  function deafen(places, awaited) {
    for (const place of places) deaf[place] = performance.now() + (awaited ? DEAF_TO_ANSWER_MS : DEAF_MS);
  }

  /** A finger on the screen holds the pads under it still. */
  return { lets, deafen, finger: () => down };
}
