// Every shape drawn small. One drawer serves all: a browser allows only few of them at a time.
import { camera, framed, HOME } from "./camera.js";
import { fetched } from "./mesh.js";
import { onLight, painted } from "./paint.js";
import { scene } from "./scene.js";

const DOTS = 2; // drawn twice as fine as a plain screen, and shrunk by it: small pictures have many edges
const AHEAD = "300px";

const hidden = document.createElement("canvas");
const drawer = scene(hidden);
const shown = new Map();

function picture(box, mesh) {
  const canvas = box.querySelector("canvas");
  canvas.width = Math.round(canvas.clientWidth * DOTS);
  canvas.height = Math.round(canvas.clientHeight * DOTS);
  hidden.width = canvas.width;
  hidden.height = canvas.height;
  const aspect = canvas.width / canvas.height;
  drawer.load(mesh);
  drawer.draw(camera({ turn: HOME, ...framed(mesh, HOME, aspect) }, aspect), painted(box, "plain"));
  canvas.getContext("2d").drawImage(hidden, 0, 0);
  canvas.dataset.drawn = String(Number(canvas.dataset.drawn ?? 0) + 1);
  box.dataset.live = "yes";
}

function again() {
  for (const [box, mesh] of shown) picture(box, mesh);
}

async function show(box) {
  const mesh = await fetched(box.dataset.solid);
  shown.set(box, mesh);
  picture(box, mesh);
}

if (drawer) {
  const near = new IntersectionObserver((seen) => {
    for (const { target, isIntersecting } of seen) {
      if (!isIntersecting) continue;
      near.unobserve(target);
      show(target).catch(() => {}); // its outline stays
    }
  }, { rootMargin: AHEAD });
  for (const box of document.querySelectorAll(".shape-picture")) near.observe(box);
  onLight(again);
  addEventListener("resize", again);
  hidden.addEventListener("webglcontextlost", (event) => {
    event.preventDefault();
    drawer.forget();
  });
  hidden.addEventListener("webglcontextrestored", again);
}
