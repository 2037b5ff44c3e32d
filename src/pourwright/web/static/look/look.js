// A look to turn and to tilt into the light, drawn where the browser can; where it cannot, the bench's picture stays.
import { turnable } from "../solid/turn.js";
import { drawing } from "./drawing.js";
import { paced } from "./pace.js";
import { eyeAt, fitted, QUARTER, sight } from "./sight.js";
import { source } from "./source.js";
import { told } from "./words.js";

const MOST_DOTS = 2; // of a screen to one CSS pixel; more costs battery and shows nothing
const VIEWS = { flank: eyeAt(0, 0), back: eyeAt(0, QUARTER), belly: eyeAt(0, -QUARTER) };

const box = document.querySelector(".turn");
const canvas = box.querySelector("canvas");
const trouble = box.querySelector(".turn-trouble");
const line = box.closest("figure")?.querySelector(".trouble") ?? trouble;
const slider = box.querySelector("#turn-thick");
const forms = box.dataset.forms ? [...document.querySelectorAll(box.dataset.forms)] : [];
const given = source(box.dataset.turn, forms);

let drawer = null;
let pace = null;
let shown = null; // mesh, optics and tables
let view = null;
let lost = false;
let missed = null; // came while the card was lost
let asking = false;
let changes = 0;

const aspect = () => canvas.clientWidth / canvas.clientHeight;
const home = () => eyeAt(shown.optics.numbers.eye[1], shown.optics.numbers.eye[0]);

function seen() {
  if (!shown) return null;
  const far = view.base / view.zoom;
  return { sight: sight({ turn: view.turn, far, target: view.target }, aspect()), scale: Number(slider.value) };
}

function set(next) {
  view = next;
  pace.ask({ moving: true });
}

function go(turn) {
  const { target, far } = fitted(shown.mesh, turn, aspect(), shown.optics.numbers.margin);
  view = { base: far, zoom: 1, turn, target };
  pace.ask();
}

function resized() {
  const dots = Math.min(devicePixelRatio, MOST_DOTS);
  canvas.width = Math.max(1, Math.round(canvas.clientWidth * dots));
  canvas.height = Math.max(1, Math.round(canvas.clientHeight * dots));
  if (!view) return;
  const { far } = fitted(shown.mesh, view.turn, aspect(), shown.optics.numbers.margin);
  view = { ...view, base: far };
  pace.ask();
}

function measure() {
  const words = told(shown.optics.numbers.thickestMm, Number(slider.value), box.dataset.system === "us");
  box.querySelector("output").textContent = words;
  slider.setAttribute("aria-valuetext", `thickest place ${words}`);
}

/** Takes up a new look; the eye moves only where it was asked to, or where the bait is another. */
function take(found) {
  if (lost) {
    missed = found;
    return;
  }
  const before = shown;
  drawer.load(found.mesh, found.optics, found.tables);
  shown = found;
  measure();
  const moved = before && String(before.optics.numbers.eye) !== String(found.optics.numbers.eye);
  if (!before || moved || before.mesh !== found.mesh) go(home());
  else pace.ask();
  box.dataset.live = "yes";
  say("");
}

function tried(found) {
  try {
    take(found);
  } catch {
    rest(trouble.dataset.none); // the card refused a program
  }
}

/** One at a time, and then only the newest; what the bench refuses leaves the picture as it was. */
async function follow() {
  if (asking) return;
  asking = true;
  try {
    for (let taken = -1; taken < changes;) {
      taken = changes;
      const found = await given.read({ changed: taken > 0 }).catch(refuse);
      if (!found) continue;
      complain("");
      tried(found);
      box.dataset.looked = String(taken);
    }
  } finally {
    asking = false;
  }
}

function say(words) {
  trouble.textContent = words;
  trouble.hidden = !words;
}

function complain(words) {
  line.textContent = words;
  line.hidden = !words;
}

function refuse(error) {
  const nothingCame = error instanceof TypeError; // as fetch has it
  if (nothingCame && !shown) say(trouble.dataset.failed);
  else complain(`No new picture: ${error.message}.`);
}

/** Leaves the place to the bench's picture, which nobody kept up to date meanwhile. */
function rest(words) {
  delete box.dataset.live;
  say(words);
  box.dispatchEvent(new Event("bench-picture", { bubbles: true }));
}

function start() {
  drawer = drawing(canvas);
  if (!drawer) {
    say(trouble.dataset.none);
    return;
  }
  pace = paced(canvas, drawer, seen);
  new ResizeObserver(resized).observe(canvas);
  resized();
  const look = () => ({ view, mesh: shown.mesh, aspect: aspect() });
  const { zoomed } = turnable(canvas, { look, set, home: () => go(home()), read: () => {} });
  box.addEventListener("click", (event) => {
    const { view: side, zoom } = event.target.closest("button")?.dataset ?? {};
    if (side) go(VIEWS[side]);
    if (zoom) zoomed(Number(zoom), [0, 0]);
  });
  slider.addEventListener("input", () => {
    measure();
    pace.ask({ moving: true });
  });
  for (const form of forms) {
    form.addEventListener("input", () => {
      changes += 1;
      follow();
    });
  }
  follow();
}

canvas.addEventListener("webglcontextlost", (event) => {
  if (!drawer) return;
  event.preventDefault();
  lost = true;
  drawer.forget();
  rest(trouble.dataset.lost);
});
canvas.addEventListener("webglcontextrestored", () => {
  lost = false;
  const found = missed ?? shown;
  missed = null;
  if (found) tried(found);
});

start();
