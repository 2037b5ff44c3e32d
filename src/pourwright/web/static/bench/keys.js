// Space or Enter anywhere presses the main pad, so that a foot switch does; digits go to the box.
import { at } from "./make.js";
import { anyOver } from "./over.js";

const isPress = (event) => event.key === " " || event.key === "Enter";
const isPlain = (event) => !event.ctrlKey && !event.altKey && !event.metaKey && !event.isComposing;
const control = (node) => node.closest?.("button, a, summary, input, select, textarea");

/** What a finger pressed keeps no focus, nor does the way into a screen over the step: the foot
 * switch that follows means the main pad. */
function releaseFocus() {
  let pointed = false;
  addEventListener("pointerdown", () => { pointed = true; }, true);
  addEventListener("keydown", () => { pointed = false; }, true);
  addEventListener("click", () => {
    const active = document.activeElement;
    if (pointed && !anyOver() && active.matches("button, a")) active.blur();
  });
  addEventListener("close", () => at("step").focus({ preventScroll: true }), true);
}

/** `mainPad()` gives the pad; `type(key)` hands a digit to the first box. */
export function keys({ mainPad, type }) {
  function pressMain(event) {
    const pad = mainPad();
    event.preventDefault();
    if (!pad) return;
    if (pad.hold) pad.hold.start();
    else pad.click();
  }

  releaseFocus();
  addEventListener("keydown", (event) => {
    if (!isPlain(event)) return;
    if (isPress(event) && event.repeat) event.preventDefault();
    else if (!anyOver() && isPress(event)) press(event);
    else if (!anyOver() && /^[\d.,]$/.test(event.key) && !control(event.target)?.matches("input") && type(event.key)) event.preventDefault();
  });
  addEventListener("keyup", (event) => {
    if (isPress(event)) mainPad()?.hold?.letGo();
  });

  function press(event) {
    const focused = control(event.target);
    if (focused?.matches("input")) {
      if (event.key === "Enter") pressMain(event);
    } else if (!focused) pressMain(event);
  }
}
