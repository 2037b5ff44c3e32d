// Take the last tap back: a plain press for ten seconds, then only by holding.
import { here } from "./laptop_time.js";
import { at, make } from "./make.js";
import { holdable } from "./pads.js";

const PLAIN_MS = 10_000;

export function undoPlace(takeBack, short) {
  const place = at("undo-place");
  let drawn = "";

  function draw(undo) {
    const plain = undo && Date.now() - here(undo.at) < PLAIN_MS;
    const wanted = undo ? `${undo.id} ${plain} ${undo.words}` : "";
    if (wanted === drawn) return false;
    drawn = wanted;
    place.replaceChildren(...(undo ? [button(undo, plain)] : []));
    return true;
  }

  function button(undo, plain) {
    const words = plain ? `Undo: ${undo.words}` : `Hold to undo: ${undo.words}`;
    const node = make("button", { type: "button", class: "quiet undo" }, make("span", { class: "undo-words" }, words));
    if (plain) node.addEventListener("click", () => takeBack(undo));
    else holdable(node, () => takeBack(undo), short);
    return node;
  }

  return draw;
}
