// Coarse while the hand moves, fine when it rests: then the mean of drawings shifted by parts of a dot.
const SHIFTS = [[-1, -3], [3, -1], [-3, 1], [1, 3]]; // eighths of a dot
const REST_MS = 140;
const [SLOW_MS, FAST_MS] = [60, 25];
const STEP = 1 / 4; // of the canvas's dots across, while it moves; every other size costs new sheets

/** Draws after `ask`; `seen` gives what is to be drawn, or nothing yet. */
export function paced(canvas, drawer, seen) {
  let [waiting, moved, fresh, nth] = [0, -Infinity, false, 0];
  let [share, most, began] = [2 * STEP, 1, 0];

  function ask({ moving = false } = {}) {
    if (moving) moved = performance.now();
    [fresh, nth] = [true, 0];
    canvas.dataset.still = "no";
    waiting ||= requestAnimationFrame(frame);
  }

  function frame(now) {
    waiting = 0;
    if (drawer.busy()) return again();
    if (began) adapt(now);
    const what = seen();
    if (!what) return undefined;
    if (now - moved < REST_MS) {
      if (fresh) coarse(what, now);
      return again();
    }
    if (nth < SHIFTS.length) {
      fine(what);
      return again();
    }
    canvas.dataset.still = "yes";
    most = 1;
    return undefined;
  }

  function again() {
    waiting ||= requestAnimationFrame(frame);
  }

  /** What proved too slow is not tried again before the hand has rested, or two sizes would take turns. */
  function adapt(now) {
    const took = now - began;
    began = 0;
    if (took > SLOW_MS) share = most = Math.max(share - STEP, STEP);
    else if (took < FAST_MS) share = Math.min(share + STEP, most);
  }

  function coarse(what, now) {
    const size = [canvas.width, canvas.height].map((dots) => Math.max(1, Math.round(dots * share)));
    [fresh, began] = [false, now];
    put({ ...what, size, shift: [0, 0], nth: 0 });
  }

  function fine(what) {
    const size = [canvas.width, canvas.height];
    const shift = SHIFTS[nth].map((eighths, axis) => eighths / 4 / size[axis]);
    put({ ...what, size, shift, nth });
    nth += 1;
  }

  function put({ sight, ...how }) {
    drawer.draw(sight, how);
    canvas.dataset.drawn = String(Number(canvas.dataset.drawn ?? 0) + 1);
  }

  return { ask };
}
