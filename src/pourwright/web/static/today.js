// Clocks of pours count to absolute times of the laptop, and the page asks anew what has changed.
import { clockWords } from "./bench/figures.js";

const LOOK_MS = 10_000;
const HOUR_S = 3600;
let offset = 0;

const place = () => document.getElementById("today");
const now = () => Date.now() + offset;

function words(left) {
  if (Math.abs(left) < HOUR_S) return clockWords(left);
  const minutes = Math.floor(Math.abs(left) / 60);
  return `${left < 0 ? "+" : ""}${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, "0")}`;
}

function draw() {
  for (const clock of document.querySelectorAll("[data-until]")) {
    const left = (Date.parse(clock.dataset.until) - now()) / 1000;
    clock.classList.toggle("is-over", left <= 0);
    clock.querySelector("[data-left]").textContent = words(left);
  }
  for (const run of document.querySelectorAll("[data-run]")) {
    const calm = !run.classList.contains("is-wrong") && !run.querySelector(".is-over");
    run.querySelector("[data-needs]").hidden = calm;
  }
}

/** Take over what the laptop shows now, unless a hand is on it. */
async function look() {
  if (document.hidden) return;
  try {
    const answer = await fetch(location.href, { headers: { accept: "text/html" } });
    const found = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById("today");
    if (!found) return;
    offset = Date.parse(found.dataset.now) - Date.now();
    const same = found.dataset.mark === place().dataset.mark;
    if (!same && !place().contains(document.activeElement)) place().replaceWith(found);
    draw();
  } catch {
    // The laptop is out of reach; the clocks go on.
  }
}

offset = Date.parse(place().dataset.now) - Date.now();
draw();
setInterval(draw, 250);
if ("mark" in place().dataset) {
  setInterval(look, LOOK_MS);
  document.addEventListener("visibilitychange", look);
}
addEventListener("pageshow", (event) => { if (event.persisted) location.reload(); });
