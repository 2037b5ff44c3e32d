// Whether the laptop is there: it beats about once a second, and silence is noticed.
const SILENCE_MS = 4000;
const REOPEN_MS = 2500;

/** `beat({newest, now})` at each beat, `changed(state)` when the link is "linked" or "out". */
export function link(address, { beat, changed }) {
  let source = null;
  let opened = 0;
  let heard = performance.now();
  let state = "reaching";

  function turn(next) {
    if (state === next) return;
    state = next;
    changed(state);
  }

  function open() {
    source?.close();
    opened = performance.now();
    source = new EventSource(`${address}/stream`);
    source.addEventListener("beat", (event) => {
      heard = performance.now();
      beat(JSON.parse(event.data));
      turn("linked");
    });
    source.addEventListener("error", () => {
      if (state === "reaching") turn("out");
    });
  }

  function tick() {
    const moment = performance.now();
    if (moment - heard > SILENCE_MS) turn("out");
    const dead = source.readyState === EventSource.CLOSED || state === "out";
    if (dead && moment - opened > REOPEN_MS) open();
  }

  function wake() {
    heard = performance.now();
    open();
  }

  open();
  addEventListener("online", wake);
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden) wake();
  });
  return { tick, state: () => state };
}
