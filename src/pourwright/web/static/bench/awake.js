// Keep the screen on while the page is open, where the browser lets us.
export function awake(changed) {
  let lock = null;
  let asked = false;
  let state = "wakeLock" in navigator ? "waits" : "cannot";

  function turn(next) {
    if (state === next) return;
    state = next;
    changed();
  }

  async function ask() {
    if (state === "cannot" || (lock && !lock.released) || document.hidden) return;
    asked = true;
    try {
      lock = await navigator.wakeLock.request("screen");
      lock.addEventListener("release", () => turn("let go"));
      turn("held");
    } catch {
      turn("refused");
    }
  }

  document.addEventListener("visibilitychange", () => {
    if (asked && !document.hidden) ask();
  });

  const SHORT = { held: "screen stays on", waits: "", cannot: "screen may go dark", refused: "screen may go dark", "let go": "screen may go dark" };
  const LONG = {
    held: "Screen stays on",
    waits: "The screen is kept on from your first press",
    cannot: "This link cannot keep the screen on: set the phone's screen to stay on while you pour",
    refused: "The phone refused to keep the screen on (a low battery does that): set it to stay on while you pour",
    "let go": "The phone let the screen go dark: press anything to keep it on again",
  };
  return { ask, short: () => SHORT[state], words: () => LONG[state] };
}
