// A bait and its look on the graphics card: the skin, and every number the programs ask for.
import { buffers } from "../solid/buffers.js";
import { stood } from "./sight.js";
import { still } from "./targets.js";

const MOST_WAVES = 8;
const CORNERS = new Float32Array([-1, -1, 1, -1, -1, 1, 1, 1]);

/** `optics` as optics.js reads it; `tables` are `face` and, where there is flake, `buried`. */
export function loaded(gl, tools, mesh, optics, tables) {
  const memory = buffers(gl);
  try {
    return { memory, ...filled(gl, tools, memory, mesh, optics, tables) };
  } catch (error) {
    memory.free();
    throw error;
  }
}

function filled(gl, tools, memory, mesh, optics, tables) {
  const picture = ({ shape, values }) => floats(gl, memory, shape, values);
  const skin = memory.array(tools.place, [["point", mesh.points, 3], ["normal", mesh.normals, 3]], mesh.triangles);
  const values = { ...optics.numbers, ...waved(optics.arrays.waves), acrossSide: mesh.across, reach: reachOf(mesh) };
  for (const name of ["layers", "sheens", "weights", "sheet", "profile"]) values[name] = picture(optics.arrays[name]);
  for (const [name, table] of Object.entries(tables)) values[name] = halves(gl, memory, table);
  const plates = optics.numbers.plateCount ? platesOf(gl, tools, memory, optics, picture) : null;
  return { skin, count: mesh.triangles.length, values: { ...values, ...plates?.values }, plates };
}

function waved({ shape: [waveCount], values }) {
  if (waveCount > MOST_WAVES) throw new Error(`the line has ${waveCount} waves`);
  const waves = new Float32Array(MOST_WAVES * 4).fill(1);
  waves.set(values);
  return { waves, waveCount };
}

/** Half of the longest way through the bait's box. */
const reachOf = ({ low, high }) => Math.hypot(...low.map((v, axis) => high[axis] - v));

/** Rows of four numbers to a dot, as they are. */
function floats(gl, memory, [rows, columns], values) {
  const found = memory.texture(gl.NEAREST);
  gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGBA32F, columns / 4, rows, 0, gl.RGBA, gl.FLOAT, values);
  still(gl, gl.NEAREST);
  return found;
}

/** A table of half floats, straight lines between its nodes. */
function halves(gl, memory, { rows, columns, layers, values }) {
  const found = memory.texture(gl.LINEAR);
  const [inner, form] = layers === 4 ? [gl.RGBA16F, gl.RGBA] : [gl.RGB16F, gl.RGB];
  gl.pixelStorei(gl.UNPACK_ALIGNMENT, 2);
  gl.texImage2D(gl.TEXTURE_2D, 0, inner, columns, rows, 0, form, gl.HALF_FLOAT, values);
  gl.pixelStorei(gl.UNPACK_ALIGNMENT, 4);
  return found;
}

function platesOf(gl, tools, memory, { numbers, arrays }, picture) {
  const standing = ({ shape, values }) => ({ shape, values: stood(values, numbers.up, 4) });
  const [spots, tilts] = [standing(arrays.spots), standing(arrays.tilts)];
  const order = new Float32Array(numbers.plateCount).map((_, i) => i);
  const array = memory.array(tools.plate, [["corner", CORNERS, 2]]);
  const which = memory.own("Buffer");
  gl.bindVertexArray(array);
  gl.bindBuffer(gl.ARRAY_BUFFER, which);
  gl.bufferData(gl.ARRAY_BUFFER, order, gl.DYNAMIC_DRAW);
  const place = tools.plate.input("which");
  gl.enableVertexAttribArray(place);
  gl.vertexAttribPointer(place, 1, gl.FLOAT, false, 0, 0);
  gl.vertexAttribDivisor(place, 1);
  gl.bindVertexArray(null);
  const values = { spots: picture(spots), tilts: picture(tilts), sorts: picture(arrays.sorts), shows: picture(arrays.shows) };
  const [high, columns] = spots.shape;
  return { array, which, order, spots: spots.values, values, wide: columns / 4, high };
}

/** Flakes as the eye meets them, the farthest first: those over one another are laid so. */
export function sorted(gl, { order, spots, which }, toward) {
  const near = (i) => spots[4 * i] * toward[0] + spots[4 * i + 1] * toward[1] + spots[4 * i + 2] * toward[2];
  order.sort((a, b) => near(a) - near(b));
  gl.bindBuffer(gl.ARRAY_BUFFER, which);
  gl.bufferSubData(gl.ARRAY_BUFFER, 0, order);
}
