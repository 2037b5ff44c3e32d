// One solid to turn: draws it where the browser can, and leaves the outline where it cannot.
import { ABOVE, camera, framed, HOME, NOSE, placed, ray, SIDE } from "./camera.js";
import { fetched } from "./mesh.js";
import { dotsOf, onLight, painted } from "./paint.js";
import { scene } from "./scene.js";
import { touched } from "./touched.js";
import { turnable } from "./turn.js";
import { told } from "./words.js";

const MOST_DOTS = 2; // of a screen to one CSS pixel; more costs battery and shows nothing
const GLIDE_MS = 220;
const LABEL_ROOM = 0.6; // nearer to the edge of the picture, a label stands to one side
const PLACES = { home: HOME, above: ABOVE, side: SIDE, nose: NOSE };

const figure = document.getElementById("solid");
const canvas = figure.querySelector("canvas");
const stage = canvas.parentElement;
const here = document.getElementById("here");
const trouble = document.getElementById("no-picture");
const scales = JSON.parse(figure.dataset.scales);
for (const scale of Object.values(scales)) scale.dots = dotsOf(scale.colors);

let drawer = null;
let mesh = null;
let view = null;
let probe = null;
let asked = 0;
let glide = 0;

const mode = () => figure.querySelector("input[name=colors]:checked")?.value ?? figure.dataset.mode;
const aspect = () => canvas.clientWidth / canvas.clientHeight;
const seen = () => camera({ turn: view.turn, far: view.base / view.zoom, target: view.target }, aspect());

function ask() {
  asked ||= requestAnimationFrame(draw);
}

function draw() {
  asked = 0;
  if (!mesh) return;
  const sight = seen();
  drawer.draw(sight, painted(stage, mode(), scales[mode()]));
  for (const mark of stage.querySelectorAll(".mark")) mark.hidden = mark.dataset.mode !== mode();
  for (const mark of stage.querySelectorAll(".mark:not([hidden])")) pin(mark, sight, JSON.parse(mark.dataset.at));
  const dot = stage.querySelector(".probe");
  dot.hidden = !probe;
  if (probe) pin(dot, sight, probe.point);
  canvas.dataset.drawn = String(Number(canvas.dataset.drawn ?? 0) + 1);
}

function pin(mark, sight, point) {
  const [x, y] = placed(sight, point);
  mark.dataset.side = x < -LABEL_ROOM ? "left" : x > LABEL_ROOM ? "right" : "";
  mark.style.left = `${(x + 1) * 50}%`;
  mark.style.top = `${(1 - y) * 50}%`;
}

function set(next) {
  cancelAnimationFrame(glide);
  view = next;
  ask();
}

/** Turns there in a moment, or at once for those who want nothing to move. */
function go(turn) {
  const { target, far } = framed(mesh, turn, aspect());
  const to = { ...view, turn, target, zoom: view.base / far };
  if (matchMedia("(prefers-reduced-motion: reduce)").matches) {
    set(to);
    return;
  }
  const from = view;
  const began = performance.now();
  const mixed = (a, b, s) => a + (b - a) * s;
  const step = (now) => {
    const s = Math.min(Math.max((now - began) / GLIDE_MS, 0), 1) ** 0.6;
    view = {
      base: to.base,
      zoom: mixed(from.zoom, to.zoom, s),
      target: from.target.map((v, k) => mixed(v, to.target[k], s)),
      turn: { around: mixed(from.turn.around, to.turn.around, s), above: mixed(from.turn.above, to.turn.above, s) },
    };
    ask();
    if (s < 1) glide = requestAnimationFrame(step);
  };
  cancelAnimationFrame(glide);
  glide = requestAnimationFrame(step);
}

/** Reads a place of the picture; a pointer that only passes over it is not spoken of. */
function read([x, y], { aloud }) {
  if (!here) return; // a solid whose thickness nobody asks for
  here.ariaLive = aloud ? "polite" : "off";
  const hit = touched(mesh, ray(seen(), x, y));
  if (!hit && !probe) return;
  probe = hit;
  here.textContent = hit ? told(hit, { mode: mode(), us: figure.dataset.system === "us" }) : here.dataset.hint;
  ask();
}

function resized() {
  const dots = Math.min(devicePixelRatio, MOST_DOTS);
  canvas.width = Math.max(1, Math.round(canvas.clientWidth * dots));
  canvas.height = Math.max(1, Math.round(canvas.clientHeight * dots));
  if (!mesh) return;
  const { target, far: base } = framed(mesh, HOME, aspect());
  view = view ? { ...view, base } : { base, zoom: 1, turn: HOME, target };
  ask();
}

function choose() {
  for (const scale of figure.querySelectorAll("[data-scale]")) scale.hidden = scale.dataset.scale !== mode();
  ask();
}

function lost(words) {
  trouble.textContent = words;
  trouble.hidden = !words;
}

async function start() {
  drawer = scene(canvas);
  if (!drawer) {
    lost(trouble.dataset.none);
    return;
  }
  const found = await fetched(figure.dataset.solid);
  drawer.load(found);
  figure.dataset.live = "yes";
  mesh = found;
  new ResizeObserver(resized).observe(canvas);
  resized();
  const { zoomed } = turnable(canvas, { look: () => ({ view, mesh, aspect: aspect() }), set, home: () => go(HOME), read });
  figure.addEventListener("click", (event) => {
    const { place, zoom } = event.target.closest("button")?.dataset ?? {};
    if (place) go(PLACES[place]);
    if (zoom) zoomed(Number(zoom), [0, 0]);
  });
  figure.addEventListener("change", choose);
  onLight(ask);
  choose();
}

canvas.addEventListener("webglcontextlost", (event) => {
  event.preventDefault();
  drawer.forget();
  lost(trouble.dataset.lost);
});
canvas.addEventListener("webglcontextrestored", () => {
  if (mesh) drawer.load(mesh);
  lost("");
  ask();
});

start().catch(() => lost(trouble.dataset.failed));
