// One solid on one canvas. Draws when asked, and only then.
import { buffers } from "./buffers.js";
import { built, SKIN_CORNER, SKIN_DOT } from "./program.js";
import { drawShadow, programs, shadowOf } from "./shadow.js";

const SETTINGS = { alpha: true, antialias: true, premultipliedAlpha: true, powerPreference: "low-power" };
const MODES = { plain: 0, thickness: 1, filling: 2, parts: 3 };

/** A drawer on that canvas, or null where the browser has no WebGL 2. */
export function scene(canvas) {
  const gl = canvas.getContext("webgl2", SETTINGS);
  if (!gl) return null;
  let tools = null;
  let parts = null;

  /** Hand a solid to the graphics card, in place of the one before. */
  function load(mesh) {
    tools ??= { skin: built(gl, SKIN_CORNER, SKIN_DOT), ...programs(gl) };
    parts?.memory.free();
    parts = loaded(gl, tools, mesh);
  }

  /** `paint` says mode, colors, lines and light; see paint.js. */
  function draw(camera, paint) {
    if (!parts || gl.isContextLost()) return;
    gl.viewport(0, 0, canvas.width, canvas.height);
    gl.clearColor(0, 0, 0, 0);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    if (paint.shadow) drawShadow(gl, tools.ground, parts.shadow, camera, paint.shadow);
    drawSkin(gl, tools.skin, parts, camera, paint);
  }

  /** A lost context takes everything with it; what was loaded must be loaded again. */
  function forget() {
    tools = null;
    parts = null;
  }

  return { load, draw, forget };
}

function loaded(gl, { skin, flat, ground }, mesh) {
  const memory = buffers(gl);
  const inputs = [["point", mesh.points, 3], ["normal", mesh.normals, 3], ["thick", mesh.thick, 1], ["order", mesh.order, 1]];
  const array = memory.array(skin, inputs, mesh.triangles);
  const shadow = shadowOf(gl, { flat, ground }, mesh, memory);
  return { memory, array, shadow, count: mesh.triangles.length, scale: memory.texture(gl.LINEAR) };
}

function drawSkin(gl, { program, value }, parts, camera, paint) {
  gl.useProgram(program);
  gl.uniformMatrix4fv(value("matrix"), false, camera.matrix);
  for (const name of ["eye", "right", "up", "toward"]) gl.uniform3fv(value(name), camera[name]);
  gl.uniform3fv(value("plastic"), paint.plastic);
  gl.uniform1f(value("edge"), paint.edge);
  gl.uniform1f(value("most"), paint.most);
  gl.uniform1i(value("mode"), MODES[paint.mode]);
  gl.uniform1i(value("lineCount"), paint.lines.length);
  if (paint.lines.length) gl.uniform1fv(value("lines"), paint.lines);
  gl.bindTexture(gl.TEXTURE_2D, parts.scale);
  gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGBA8, paint.dots.length / 4, 1, 0, gl.RGBA, gl.UNSIGNED_BYTE, paint.dots);
  gl.enable(gl.DEPTH_TEST);
  gl.enable(gl.CULL_FACE);
  gl.disable(gl.BLEND);
  gl.bindVertexArray(parts.array);
  gl.drawElements(gl.TRIANGLES, parts.count, gl.UNSIGNED_INT, 0);
  gl.bindVertexArray(null);
}
