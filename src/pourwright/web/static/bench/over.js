// Screens over the step: closed by Back, by Escape, or by what was chosen in them.
import { at, make } from "./make.js";

export function openOver(id) {
  const over = at(id);
  if (!over.open) over.showModal();
  over.scrollTop = 0;
  over.querySelector("h2").focus({ preventScroll: true });
  return over;
}

export const closeOver = (id) => at(id).close();

export const anyOver = () => Boolean(document.querySelector("dialog[open]"));

export function overHead(id, title, label = "Back") {
  const back = make("button", { type: "button", class: "quiet", on: { click: (event) => event.target.closest("dialog").close() } }, label);
  return make("div", { class: "over-head" }, make("h2", { id, tabindex: "-1" }, title), back);
}

/** A screen of words. */
export function tell(title, ...nodes) {
  at("told-over").replaceChildren(overHead("told-title", title), ...nodes);
  openOver("told-over");
}
