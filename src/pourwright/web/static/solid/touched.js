// Which place of the skin a ray meets first.
// Source: Moeller and Trumbore, Fast, Minimum Storage Ray/Triangle Intersection, 1997.
const LEAST = 1e-12;

export function touched({ points, triangles, thick, order }, { from, along }) {
  let best = null;
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [triangles[i] * 3, triangles[i + 1] * 3, triangles[i + 2] * 3];
    const abx = points[b] - points[a], aby = points[b + 1] - points[a + 1], abz = points[b + 2] - points[a + 2];
    const acx = points[c] - points[a], acy = points[c + 1] - points[a + 1], acz = points[c + 2] - points[a + 2];
    const px = along[1] * acz - along[2] * acy, py = along[2] * acx - along[0] * acz, pz = along[0] * acy - along[1] * acx;
    const size = abx * px + aby * py + abz * pz;
    if (size < LEAST) continue; // seen from inside, or edge on
    const tx = from[0] - points[a], ty = from[1] - points[a + 1], tz = from[2] - points[a + 2];
    const u = (tx * px + ty * py + tz * pz) / size;
    if (u < 0 || u > 1) continue;
    const qx = ty * abz - tz * aby, qy = tz * abx - tx * abz, qz = tx * aby - ty * abx;
    const v = (along[0] * qx + along[1] * qy + along[2] * qz) / size;
    if (v < 0 || u + v > 1) continue;
    const far = (acx * qx + acy * qy + acz * qz) / size;
    if (far > 0 && (!best || far < best.far)) best = { far, i, u, v };
  }
  if (!best) return null;
  const mixed = (values) => {
    const [a, b, c] = [0, 1, 2].map((k) => values[triangles[best.i + k]]);
    return a + best.u * (b - a) + best.v * (c - a);
  };
  return { point: from.map((v, k) => v + best.far * along[k]), thick: mixed(thick), order: mixed(order) };
}
