// One step on the screen: name, one huge figure or clock, words, pads.
import { clockWords, firstSentence, widthEm } from "./figures.js";
import { at, make, show, write } from "./make.js";
import { padButton } from "./pads.js";

const MOST_SIDE = 2;

/** Draws into the page's own places; `acts` are the presses, `why(lines)` opens all the words. */
export function stepScreen(boxes, acts, why) {
  function draw(screen, phase, fresh) {
    write(at("step-name"), screen.step);
    write(at("phase-name"), phase.name === screen.step ? "" : phase.name);
    show(at("stay"), Boolean(phase.caution));
    write(at("stay-words"), phase.caution);
    figure(phase.big, phase.unit);
    at("huge").toggleAttribute("hidden", !phase.big && phase.for_s === null);
    words(phase.words);
    boxes.draw(phase.entries, fresh);
    at("now").classList.toggle("has-entries", phase.entries.length > 0);
    pads(phase.pads);
  }

  function figure(text, unit, clock = false) {
    const huge = at("huge");
    write(at("huge-text"), text);
    write(at("huge-unit"), unit);
    huge.style.setProperty("--em", (widthEm(text) + (unit ? 0.34 * (0.6 + widthEm(unit)) : 0)).toFixed(2));
    if (clock) huge.setAttribute("role", "timer");
    else huge.removeAttribute("role");
    huge.classList.toggle("is-over", clock && text.startsWith("+"));
  }

  function words(lines) {
    const { first, more } = firstSentence(lines);
    const all = make("div", { class: "words-all" }, ...lines.map((line) => make("p", {}, line)));
    const open = make("button", { type: "button", class: "quiet why", on: { click: () => why(lines) } }, "Why");
    const opening = make("p", { class: "opening" }, lines[0] ?? "");
    const short = make("div", { class: "words-short" }, opening, make("p", { class: "sentence" }, first), more || lines.length > 1 ? open : null);
    at("words").replaceChildren(...(lines.length ? [all, short] : []));
  }

  function pads(list) {
    const main = list.find((pad) => pad.main);
    const sides = list.filter((pad) => pad !== main).slice(0, MOST_SIDE);
    at("main-place").replaceChildren(...(main ? [padButton(main, acts)] : []));
    at("side-place").replaceChildren(...sides.map((pad) => padButton(pad, acts)));
  }

  /** The running clock of a phase, `left` in seconds. */
  const runClock = (left) => figure(clockWords(left), "", true);

  const mainPad = () => at("main-place").firstElementChild;

  return { draw, runClock, mainPad };
}
