// Where the eye stands: around the bait by two angles, as if it lay on the bench and one walked around.
// Nose at the left, the pull of the mold up.
const DEGREE = Math.PI / 180;
const HALF_HIGH = Math.tan(12 * DEGREE);
const MARGIN = 1.12;

export const HOME = Object.freeze({ around: -112 * DEGREE, above: 40 * DEGREE });
export const ABOVE = Object.freeze({ around: -90 * DEGREE, above: 90 * DEGREE });
export const SIDE = Object.freeze({ around: -90 * DEGREE, above: 0 });
export const NOSE = Object.freeze({ around: -180 * DEGREE, above: 8 * DEGREE });

export const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const plus = (a, b, times = 1) => [a[0] + b[0] * times, a[1] + b[1] * times, a[2] + b[2] * times];

/** Unit vectors of the picture: to its right, up, and toward the eye. */
export function axes({ around, above }) {
  const [ca, sa, ce, se] = [Math.cos(around), Math.sin(around), Math.cos(above), Math.sin(above)];
  return { right: [-sa, ca, 0], up: [-se * ca, -se * sa, ce], toward: [ce * ca, ce * sa, se] };
}

/** Where to look, and from how far, so that the whole bait stands in the middle of a picture. */
export function framed(mesh, turn, aspect) {
  const { right, up } = axes(turn);
  const target = plus(plus(mesh.middle, right, center(mesh, right)), up, center(mesh, up));
  return { target, far: fitting(mesh, turn, target, aspect) };
}

/** How far the bait's middle, seen along an axis, lies from the middle of its box. */
function center(mesh, axis) {
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < mesh.points.length; i += 3) {
    const at = mesh.points[i] * axis[0] + mesh.points[i + 1] * axis[1] + mesh.points[i + 2] * axis[2];
    low = Math.min(low, at);
    high = Math.max(high, at);
  }
  return (low + high) / 2 - dot(mesh.middle, axis);
}

function fitting(mesh, turn, target, aspect) {
  const { right, up, toward } = axes(turn);
  let far = 1;
  for (let i = 0; i < mesh.points.length; i += 3) {
    const at = [mesh.points[i] - target[0], mesh.points[i + 1] - target[1], mesh.points[i + 2] - target[2]];
    const half = Math.max(Math.abs(dot(at, right)) / aspect, Math.abs(dot(at, up)));
    far = Math.max(far, (half * MARGIN) / HALF_HIGH + dot(at, toward));
  }
  return far;
}

/** What a drawing needs of `{turn, far, target}` in a picture of that width to height. */
export function camera({ turn, far, target }, aspect) {
  const { right, up, toward } = axes(turn);
  const eye = plus(target, toward, far);
  const [near, deep] = [far / 50, far * 6];
  const [sx, sy] = [1 / (HALF_HIGH * aspect), 1 / HALF_HIGH];
  const [a, b] = [(deep + near) / (near - deep), (2 * deep * near) / (near - deep)];
  const column = (k) => [right[k] * sx, up[k] * sy, toward[k] * a, -toward[k]];
  const move = [-dot(right, eye) * sx, -dot(up, eye) * sy, -dot(toward, eye) * a + b, dot(toward, eye)];
  return { right, up, toward, eye, aspect, matrix: new Float32Array([0, 1, 2].flatMap(column).concat(move)) };
}

/** The ray through a place of the picture; `x` and `y` run from -1 to 1, up is positive. */
export function ray({ right, up, toward, eye, aspect }, x, y) {
  const along = plus(plus(toward.map((v) => -v), right, x * HALF_HIGH * aspect), up, y * HALF_HIGH);
  return { from: eye, along };
}

/** Where a point stands in the picture, from -1 to 1. */
export function placed({ matrix: m }, [x, y, z]) {
  const row = (k) => m[k] * x + m[k + 4] * y + m[k + 8] * z + m[k + 12];
  return [row(0) / row(3), row(1) / row(3)];
}

/** How far the picture reaches at the target, in mm, from its middle to its upper edge. */
export const halfHigh = (far) => far * HALF_HIGH;
