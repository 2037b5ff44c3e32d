// The shadow of the bait as it lies on the bench: its shape seen along the pull, blurred by halving.
import { built, FLAT_CORNER, FLAT_DOT, GROUND_CORNER, GROUND_DOT } from "./program.js";

const SIZE = 256;
const LEVELS = 9;
const ROOM = 1.25; // of the shadow's window against the bait, and as much of its thickness
const UNDER = 0.06; // the bench lies this part of half the thickness below the bait
const FADES = 0.3;

export function programs(gl) {
  return { flat: built(gl, FLAT_CORNER, FLAT_DOT), ground: built(gl, GROUND_CORNER, GROUND_DOT) };
}

export function shadowOf(gl, { flat, ground }, mesh, memory) {
  const half = mesh.low.map((v, axis) => (mesh.high[axis] - v) / 2);
  const more = half[2] * ROOM;
  const window = [mesh.middle[0], mesh.middle[1], half[0] * ROOM + more, half[1] * ROOM + more];
  const mask = memory.texture(gl.LINEAR_MIPMAP_LINEAR);
  gl.texStorage2D(gl.TEXTURE_2D, LEVELS, gl.R8, SIZE, SIZE);
  const frame = gl.createFramebuffer();
  gl.bindFramebuffer(gl.FRAMEBUFFER, frame);
  gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0, gl.TEXTURE_2D, mask, 0);
  gl.viewport(0, 0, SIZE, SIZE);
  gl.clearColor(0, 0, 0, 1);
  gl.clear(gl.COLOR_BUFFER_BIT);
  for (const ability of [gl.DEPTH_TEST, gl.CULL_FACE, gl.BLEND]) gl.disable(ability);
  gl.useProgram(flat.program);
  gl.uniform4fv(flat.value("window"), window);
  gl.bindVertexArray(memory.array(flat, [["point", mesh.points, 3]], mesh.triangles));
  gl.drawElements(gl.TRIANGLES, mesh.triangles.length, gl.UNSIGNED_INT, 0);
  gl.bindVertexArray(null);
  gl.bindFramebuffer(gl.FRAMEBUFFER, null);
  gl.deleteFramebuffer(frame);
  gl.generateMipmap(gl.TEXTURE_2D);
  const corners = memory.array(ground, [["corner", new Float32Array([-1, -1, 1, -1, -1, 1, 1, 1]), 2]]);
  return { mask, window, corners, floor: mesh.low[2] - half[2] * UNDER };
}

/** Fades as the eye comes down to the bench; from below there is none. */
export function drawShadow(gl, { program, value }, { mask, window, corners, floor }, { matrix, toward }, dark) {
  const seen = Math.min(Math.max(toward[2] / FADES, 0), 1);
  if (!seen) return;
  gl.useProgram(program);
  gl.uniformMatrix4fv(value("matrix"), false, matrix);
  gl.uniform4fv(value("window"), window);
  gl.uniform1f(value("floorZ"), floor);
  gl.uniform1f(value("dark"), dark * seen);
  gl.bindTexture(gl.TEXTURE_2D, mask);
  gl.disable(gl.DEPTH_TEST);
  gl.disable(gl.CULL_FACE);
  gl.enable(gl.BLEND);
  gl.blendFunc(gl.ONE, gl.ONE_MINUS_SRC_ALPHA);
  gl.bindVertexArray(corners);
  gl.drawArrays(gl.TRIANGLE_STRIP, 0, 4);
  gl.bindVertexArray(null);
}
