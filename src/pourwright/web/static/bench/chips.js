// The clocks beside the step: molds that cool, and how long the cup stays pourable.
import { clockWords } from "./figures.js";
import { at, make, sign, write } from "./make.js";

const secondsTo = (moment) => (moment - Date.now()) / 1000;

/** Which mold it is, never cut, and what it is, cut where room is scarce. */
function namePieces(name) {
  const [, which, what] = name.match(/^([^:]{1,12}): (.+)$/) ?? ["", "", name];
  return { which: make("span", { class: "chip-which" }, which), what: make("span", { class: "chip-what" }, what) };
}

/** Chips of clocks `{key, name, at, over}` with `at` in this device's milliseconds, in place. */
export function chips(openLine) {
  const place = at("chips");
  let shown = new Map();
  let key = "";

  function draw(clocks, live) {
    const wanted = JSON.stringify([clocks.map((one) => [one.key, one.name, one.over]), live && live.name]);
    if (wanted !== key) {
      key = wanted;
      shown = new Map(clocks.map((one) => [one.key, chip(one)]));
      place.replaceChildren(...[...shown.values()].map((one) => one.node), ...(live ? [liveChip()] : []));
      place.dataset.count = String(place.children.length);
    }
    for (const one of clocks) run(shown.get(one.key), one);
    if (live) runLive(live);
    return wanted;
  }

  function chip({ name }) {
    const over = make("span", { class: "chip-over" });
    const time = make("span", { class: "chip-time", role: "timer", "aria-label": name });
    const { which, what } = namePieces(name);
    const label = make("span", { class: "chip-name" }, which, over, what);
    return { node: make("li", { class: "chip", title: name }, label, time), over, time };
  }

  function run({ node, over, time }, one) {
    const left = secondsTo(one.at);
    node.classList.toggle("is-over", left < 0);
    if (left < 0 && !over.hasChildNodes()) over.append(sign("caution"), one.over);
    if (left >= 0 && over.hasChildNodes()) over.replaceChildren();
    write(time, clockWords(left));
  }

  function liveChip() {
    const button = make("button", { type: "button", class: "chip is-live", id: "live-chip", on: { click: openLine } },
      make("span", { class: "chip-name" }, make("span", { class: "chip-what", id: "live-name" }), make("span", { class: "chip-as-of", id: "live-as-of" })),
      make("span", { class: "chip-time", id: "live-time" }));
    return make("li", { class: "live-place" }, button);
  }

  function runLive({ name, until, text, asOf }) {
    const left = until === null ? null : secondsTo(until);
    at("live-chip").classList.toggle("is-over", left !== null && left < 0);
    write(at("live-name"), left !== null && left < 0 ? "Too cool to pour since" : name);
    write(at("live-as-of"), asOf);
    write(at("live-time"), left === null ? text : clockWords(left));
    at("live-time").classList.toggle("is-words", left === null);
  }

  return draw;
}
