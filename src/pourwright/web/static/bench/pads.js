// Pads: pressed, or held for a second where nothing may happen by accident.
import { make } from "./make.js";

const HOLD_MS = 1000;

/** Call `act` once `node` was held, by finger or key; `short()` when it was let go too early. */
export function holdable(node, act, short) {
  let timer = null;

  function start() {
    if (timer !== null) return;
    node.classList.add("is-held");
    timer = setTimeout(() => {
      stop();
      act();
    }, HOLD_MS);
  }

  function stop() {
    clearTimeout(timer);
    timer = null;
    node.classList.remove("is-held");
  }

  function letGo() {
    if (timer === null) return;
    stop();
    short();
  }

  const isPress = (event) => event.key === "Enter" || event.key === " ";
  node.addEventListener("pointerdown", (event) => {
    if (event.button === 0) start();
  });
  for (const name of ["pointerup", "pointercancel", "pointerleave", "blur"]) node.addEventListener(name, letGo);
  node.addEventListener("contextmenu", (event) => event.preventDefault());
  node.addEventListener("keydown", (event) => {
    if (!isPress(event)) return;
    event.preventDefault();
    if (!event.repeat) start();
  });
  node.addEventListener("keyup", (event) => {
    if (isPress(event)) letGo();
  });
  node.hold = { start, letGo };
}

/** The button of a pad; `press(pad)` when it was pressed, `short(pad)` when held too briefly. */
export function padButton(pad, { press, short }) {
  const traits = { class: `pad ${pad.main ? "is-main" : "quiet"}${pad.late ? " is-late" : ""}${pad.starts ? " is-filling" : ""}` };
  const label = make("span", { class: "pad-label" }, pad.label);
  if (pad.link) return make("a", { ...traits, href: pad.link }, label);
  const hint = pad.hold ? make("span", { class: "pad-hint" }, "hold one second") : null;
  const node = make("button", { ...traits, type: "button" }, label, hint);
  if (pad.hold) holdable(node, () => press(pad), () => short(pad));
  else node.addEventListener("click", () => press(pad));
  return node;
}
