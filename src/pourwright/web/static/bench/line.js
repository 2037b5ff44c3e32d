// The temperature line: beside the step on a laptop, over it on a phone.
import { clockWords } from "./figures.js";
import { here, now } from "./laptop_time.js";
import { at, make, show, sign } from "./make.js";
import { tell } from "./over.js";

const WIDE = matchMedia("(min-width: 64rem) and (min-height: 40rem)");

const hourOf = (moment) => new Date(moment).toLocaleTimeString("en-US", { hour: "2-digit", minute: "2-digit", hourCycle: "h23" });

const ranOut = (live) => Boolean(live.pourable_until) && Date.parse(live.pourable_until) < now();

function pourWords(live, asOf) {
  if (ranOut(live)) return `The time to pour ran out at ${hourOf(live.pourable_until)}: read it before you pour`;
  return live.pourable_words && `Pourable for ${live.pourable_words}${asOf && `, ${asOf}`}`;
}

function parts(live, asOf) {
  const chart = make("div", { class: "line-chart" });
  // The chart is drawn by our own server, as in the pages of the cup.
  chart.innerHTML = live.svg;
  const read = live.read ? make("p", { class: live.doubted ? "line-read is-doubted" : "line-read" }, live.doubted ? sign("caution") : null, live.doubted ? `Doubted: ${live.read}` : live.read) : null;
  const words = pourWords(live, asOf);
  return [
    live.now ? make("p", { class: "line-now" }, make("span", { class: "line-what" }, live.what), " ", make("strong", {}, live.now), asOf && ` ${asOf}`) : null,
    words ? make("p", { class: ranOut(live) ? "line-out" : "" }, words) : null,
    read, chart,
    live.lesson ? make("p", { class: "line-lesson" }, live.lesson) : null,
  ].filter(Boolean);
}

export function lineView(redrawn) {
  let drawn = "";
  let live = null;
  let asOf = "";

  /** Draw a State's line; `stale` while the laptop, which reckons it, is out of reach. */
  function draw(state, stale) {
    live = state.live;
    asOf = stale ? `at ${hourOf(state.now)}` : "";
    const wanted = WIDE.matches && live ? JSON.stringify([live, asOf, ranOut(live)]) : "";
    if (wanted === drawn) return;
    drawn = wanted;
    show(at("line"), Boolean(wanted));
    at("line").replaceChildren(...(wanted ? [make("h2", {}, "Temperature line"), ...parts(live, asOf)] : []));
    redrawn();
  }

  /** What the live chip shows: the time left to pour, else how hot the plastic is. */
  const chip = () => {
    if (!live?.now) return null;
    const until = live.pourable_until && here(live.pourable_until);
    return { name: until ? "Pourable for" : live.what, until: until || null, text: live.now, asOf };
  };

  const open = () => {
    if (!live) return;
    const until = !ranOut(live) && live.pourable_until && (here(live.pourable_until) - Date.now()) / 1000;
    const left = until ? make("p", {}, `As opened: ${clockWords(until)} left to pour`) : null;
    tell("Temperature line", ...parts(live, asOf), ...(left ? [left] : []));
  };

  return { draw, chip, open };
}
