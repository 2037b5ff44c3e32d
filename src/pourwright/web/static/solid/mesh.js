// A solid as the bench sends it: counts, then points, normals, thickness, order of filling, triangles.
import { answered } from "../answer.js";

const MAGIC = 0x31535750; // "PWS1"
const HEAD_BYTES = 16;

export function parsed(buffer) {
  const [magic, corners, faces] = new Uint32Array(buffer, 0, 3);
  if (magic !== MAGIC) throw new Error("the bench sent no solid");
  let at = HEAD_BYTES;
  const next = (Kind, count) => {
    const found = new Kind(buffer, at, count);
    at += found.byteLength;
    return found;
  };
  const points = next(Float32Array, corners * 3);
  const normals = next(Float32Array, corners * 3);
  const thick = next(Float32Array, corners);
  const order = next(Float32Array, corners);
  const triangles = next(Uint32Array, faces * 3);
  return { points, normals, thick, order, triangles, ...box(points) };
}

export async function fetched(address) {
  return parsed(await (await answered(address)).arrayBuffer());
}

function box(points) {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < points.length; i += 1) {
    const axis = i % 3;
    low[axis] = Math.min(low[axis], points[i]);
    high[axis] = Math.max(high[axis], points[i]);
  }
  return { low, high, middle: low.map((v, axis) => (v + high[axis]) / 2) };
}
