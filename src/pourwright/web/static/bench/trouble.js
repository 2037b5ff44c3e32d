// Something wrong: four plain choices; the choice is stamped at once, then what to do first.
import { at, make, sign } from "./make.js";
import { closeOver, openOver, overHead } from "./over.js";

const ID = "trouble-over";

export function troubles(stamp) {
  function choose(list) {
    const pads = list.map((one) => make("button", { type: "button", class: "pad is-wrong", on: { click: () => chosen(one) } },
      make("span", { class: "pad-label" }, one.label)));
    at(ID).replaceChildren(overHead("trouble-title", "What is wrong?"), make("div", { class: "trouble-pads" }, ...pads));
    openOver(ID);
  }

  function chosen(one) {
    if (!stamp(one.pad)) return;
    const steps = one.first.map((words) => make("li", {}, words));
    const on = make("button", { type: "button", class: "pad is-main", on: { click: () => closeOver(ID) } }, make("span", { class: "pad-label" }, "Go on"));
    at(ID).replaceChildren(
      make("div", { class: "over-head" }, make("h2", { id: "trouble-title", tabindex: "-1", class: "is-wrong" }, sign("caution"), one.label)),
      make("ol", { class: "do-first" }, ...steps),
      make("p", { class: "faint" }, "Noted with its time. Local codes and the data sheet come first."),
      make("div", { class: "over-foot" }, on));
    openOver(ID);
  }

  return choose;
}
