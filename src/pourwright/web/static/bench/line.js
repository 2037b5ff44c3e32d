// The temperature line: beside the step on a laptop, over it on a phone.
import { clockWords } from "./figures.js";
import { here } from "./laptop_time.js";
import { at, make, show, sign } from "./make.js";
import { tell } from "./over.js";

const WIDE = matchMedia("(min-width: 64rem) and (min-height: 40rem)");

function parts(live) {
  const chart = make("div", { class: "line-chart" });
  // The chart is drawn by our own server, as in the pages of the cup.
  chart.innerHTML = live.svg;
  const read = live.read ? make("p", { class: live.doubted ? "line-read is-doubted" : "line-read" }, live.doubted ? sign("caution") : null, live.doubted ? `Doubted: ${live.read}` : live.read) : null;
  return [
    live.now ? make("p", { class: "line-now" }, make("span", { class: "line-what" }, live.what), " ", make("strong", {}, live.now)) : null,
    live.pourable_words ? make("p", {}, `Pourable for ${live.pourable_words}`) : null,
    read, chart,
    live.lesson ? make("p", { class: "line-lesson" }, live.lesson) : null,
  ].filter(Boolean);
}

export function lineView(redrawn) {
  let drawn = "";
  let live = null;

  function draw(next) {
    live = next;
    const wanted = WIDE.matches && live ? JSON.stringify(live) : "";
    if (wanted === drawn) return;
    drawn = wanted;
    show(at("line"), Boolean(wanted));
    at("line").replaceChildren(...(wanted ? [make("h2", {}, "Temperature line"), ...parts(live)] : []));
    redrawn();
  }

  WIDE.addEventListener("change", () => draw(live));

  /** What the live chip shows: the time left to pour, else how hot the plastic is. */
  const chip = () => {
    if (!live?.now) return null;
    const until = live.pourable_until && here(live.pourable_until);
    return { name: until ? "Pourable for" : live.what, until: until || null, text: live.now };
  };

  const open = () => {
    if (!live) return;
    const until = live.pourable_until && (here(live.pourable_until) - Date.now()) / 1000;
    const left = until ? make("p", {}, `As opened: ${clockWords(until)} left to pour`) : null;
    tell("Temperature line", ...parts(live), ...(left ? [left] : []));
  };

  return { draw, chip, open };
}
