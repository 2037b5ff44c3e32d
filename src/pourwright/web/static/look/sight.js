// How the bait stands before the eye: seen without perspective, back up, nose at the left.
import { axes, dot, halfHigh, plus } from "../solid/camera.js";

export const QUARTER = Math.PI / 2;

/** Where the eye stands who has gone round toward the nose and risen toward the back by so much. */
export const eyeAt = (turn, tilt) => Object.freeze({ around: -QUARTER - turn, above: tilt });

/** Places of a bait whose back points along that axis, with the back along z; `step` numbers to a place. */
export function stood(values, up, step = 3) {
  if (up === 2) return values;
  const found = values.slice();
  for (let i = 0; i < values.length; i += step) {
    found[i + 1] = -values[i + 2];
    found[i + 2] = values[i + 1];
  }
  return found;
}

export function standing(mesh, up) {
  const points = stood(mesh.points, up);
  const spans = [0, 1, 2].map((axis) => span(points, [0, 1, 2].map((k) => Number(k === axis))));
  return {
    ...mesh,
    points,
    normals: stood(mesh.normals, up),
    low: spans.map(([middle, half]) => middle - half),
    high: spans.map(([middle, half]) => middle + half),
    middle: spans.map(([middle]) => middle),
    across: up === 2 ? 1 : -1,
  };
}

/** How the whole bait fits in a picture of that width to height, with that margin on each side: `{target, far}`. */
export function fitted({ points, middle }, turn, aspect, margin) {
  const { right, up } = axes(turn);
  const [left, wide] = span(points, right);
  const [bottom, tall] = span(points, up);
  const target = plus(plus(middle, right, left - dot(middle, right)), up, bottom - dot(middle, up));
  return { target, far: Math.max(wide / aspect, tall) / (1 - 2 * margin) / halfHigh(1) };
}

/** Middle and half of what places take up along an axis. */
function span(points, axis) {
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < points.length; i += 3) {
    const at = points[i] * axis[0] + points[i + 1] * axis[1] + points[i + 2] * axis[2];
    low = Math.min(low, at);
    high = Math.max(high, at);
  }
  return [(low + high) / 2, (high - low) / 2];
}

/** What a drawing needs: where right, up and toward the eye are, what is in the middle, mm from there to an edge. */
export function sight({ turn, far, target }, aspect) {
  const tall = halfHigh(far);
  return { ...axes(turn), target, halfMm: [tall * aspect, tall] };
}
