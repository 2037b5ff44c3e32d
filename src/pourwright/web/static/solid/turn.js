// Fingers, mouse, wheel and keys turn, move and enlarge what a canvas shows.
import { axes, halfHigh, plus } from "./camera.js";

const TURN = Math.PI / 360; // half a degree to a pixel
const STEP = Math.PI / 18;
const LEAST_ZOOM = 0.6;
const MOST_ZOOM = 12;
const WHEEL = 0.0016;
const PINCH = 0.01; // a pinch on a touch pad comes as a wheel with Ctrl, in small numbers
const TAP_PX = 6;
const KEY_ZOOM = 1.25;
const TURNS = { ArrowLeft: [1, 0], ArrowRight: [-1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

const within = (v, low, high) => Math.min(Math.max(v, low), high);

export function turned(view, dx, dy) {
  const around = view.turn.around + dx;
  return { ...view, turn: { around, above: within(view.turn.above + dy, -Math.PI / 2, Math.PI / 2) } };
}

/** Moves the target in the plane of the picture, but never out of the bait's box. */
export function moved(view, mesh, x, y) {
  const { right, up } = axes(view.turn);
  const target = plus(plus(view.target, right, x), up, y);
  return { ...view, target: target.map((v, axis) => within(v, mesh.low[axis], mesh.high[axis])) };
}

/** Enlarges so that what lies under a place of the picture, from -1 to 1, stays there. */
export function enlarged(view, mesh, factor, [x, y], aspect) {
  const zoom = within(view.zoom * factor, LEAST_ZOOM, MOST_ZOOM);
  const half = halfHigh(view.base / view.zoom) * (1 - view.zoom / zoom);
  return { ...moved(view, mesh, x * half * aspect, y * half), zoom };
}

/** `look` has the view, the mesh and the aspect; `set` takes a new view; `read` is told a place, and whether it was asked for. */
export function turnable(canvas, { look, set, home, read }) {
  const held = new Map();
  let walked = 0;

  const spot = (event) => {
    const box = canvas.getBoundingClientRect();
    return [((event.clientX - box.left) / box.width) * 2 - 1, 1 - ((event.clientY - box.top) / box.height) * 2];
  };
  const zoomed = (factor, at) => set(enlarged(look().view, look().mesh, factor, at, look().aspect));
  const shifted = (dx, dy) => {
    const { view, mesh } = look();
    const mm = (2 * halfHigh(view.base / view.zoom)) / canvas.clientHeight;
    set(moved(view, mesh, -dx * mm, dy * mm));
  };

  function pinched(event) {
    const [other] = [...held].filter(([id]) => id !== event.pointerId).map(([, at]) => at);
    const before = held.get(event.pointerId);
    const span = (at) => Math.hypot(at.clientX - other.clientX, at.clientY - other.clientY);
    const middle = { clientX: (event.clientX + other.clientX) / 2, clientY: (event.clientY + other.clientY) / 2 };
    shifted((event.clientX - before.clientX) / 2, (event.clientY - before.clientY) / 2);
    if (span(before) > 0) zoomed(span(event) / span(before), spot(middle));
  }

  canvas.addEventListener("pointerdown", (event) => {
    canvas.setPointerCapture(event.pointerId);
    if (!held.size) walked = 0;
    held.set(event.pointerId, event);
  });
  canvas.addEventListener("pointermove", (event) => {
    const before = held.get(event.pointerId);
    if (!before) {
      read(spot(event), { aloud: false });
      return;
    }
    const [dx, dy] = [event.clientX - before.clientX, event.clientY - before.clientY];
    walked += Math.hypot(dx, dy);
    if (held.size > 1) pinched(event);
    else if (event.shiftKey) shifted(dx, dy);
    else set(turned(look().view, -dx * TURN, dy * TURN));
    held.set(event.pointerId, event);
  });
  canvas.addEventListener("pointerup", (event) => {
    if (held.size === 1 && walked < TAP_PX) read(spot(event), { aloud: true });
    held.delete(event.pointerId);
  });
  canvas.addEventListener("pointercancel", (event) => held.delete(event.pointerId));
  canvas.addEventListener("wheel", (event) => {
    if (!event.ctrlKey && document.activeElement !== canvas) return; // the page scrolls
    event.preventDefault();
    zoomed(Math.exp(-event.deltaY * (event.ctrlKey ? PINCH : WHEEL)), spot(event));
  }, { passive: false });
  canvas.addEventListener("keydown", (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const arrow = TURNS[event.key];
    const box = { w: canvas.clientWidth / 10, h: canvas.clientHeight / 10 };
    if (arrow && event.shiftKey) shifted(arrow[0] * box.w, arrow[1] * box.h);
    else if (arrow) set(turned(look().view, arrow[0] * STEP, arrow[1] * STEP));
    else if (event.key === "+" || event.key === "=") zoomed(KEY_ZOOM, [0, 0]);
    else if (event.key === "-") zoomed(1 / KEY_ZOOM, [0, 0]);
    else if (event.key === "0" || event.key === "Home") home();
    else if (event.key !== "Enter" && event.key !== " ") return;
    event.preventDefault();
    read([0, 0], { aloud: true });
  });

  return { zoomed };
}
