// A look on one canvas. Draws when asked, and only then.
import { loaded, sorted } from "./loaded.js";
import { flakePrograms, programs } from "./programs.js";
import { targets, tintsOf } from "./targets.js";

const SETTINGS = { alpha: false, antialias: false, depth: false, powerPreference: "low-power" };
const [FLOATS, SUMS] = ["EXT_color_buffer_float", "EXT_float_blend"];
const NOWHERE = -1e9;

/** A drawer on that canvas, or null where the graphics card keeps no lengths. */
export function drawing(canvas) {
  const gl = canvas.getContext("webgl2", SETTINGS);
  if (!gl || !gl.getExtension(FLOATS)) return null;
  let [tools, bait, sheets, fence] = [null, null, null, null];

  function load(mesh, optics, tables) {
    gl.getExtension(FLOATS); // a restored card has to be asked again
    bait?.memory.free();
    bait?.tints?.free();
    bait = null;
    tools ??= programs(gl);
    if (optics.numbers.plateCount > 0 && !tools.plate) tools = { ...tools, ...flakePrograms(gl) };
    bait = loaded(gl, tools, mesh, optics, tables);
    if (bait.plates) bait.tints = tintsOf(gl, bait.plates.wide, bait.plates.high);
  }

  /** `sight` is from sight.js; `size` in dots; `shift` of the picture in parts of its half; `nth` of the drawings of one view, from 0. */
  function draw(sight, { size, scale, shift, nth }) {
    if (!bait || gl.isContextLost()) return;
    if (!sheets || sheets.wide !== size[0] || sheets.high !== size[1]) {
      sheets?.free();
      sheets = targets(gl, ...size, Boolean(gl.getExtension(SUMS)));
    }
    const own = { thickMap: sheets.thick.texture, frontMap: sheets.front.texture, rearMap: sheets.rear.texture };
    const values = { ...bait.values, ...sight, ...own, size, scale, shift, drawn: sheets.drawn.texture };
    depths(values);
    light(values, nth === 0 ? sight.toward : null);
    keep(values, nth);
    show(values);
    fence = gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
    gl.flush();
  }

  /** Whether the card still works on the last drawing. */
  function busy() {
    if (!fence) return false;
    if (gl.clientWaitSync(fence, 0, 0) === gl.TIMEOUT_EXPIRED) return true;
    gl.deleteSync(fence);
    fence = null;
    return false;
  }

  function depths(values) {
    onto(sheets.thick, sheets, [0, 0, 0, 0]);
    gl.enable(gl.BLEND);
    gl.blendFunc(gl.ONE, gl.ONE);
    skin(tools.thick, values);
    gl.disable(gl.BLEND);
    gl.enable(gl.DEPTH_TEST);
    for (const [sheet, test, far] of [[sheets.front, gl.LESS, 1], [sheets.rear, gl.GREATER, 0]]) {
      onto(sheet, sheets, [0, 0, 0, NOWHERE]);
      gl.clearDepth(far);
      gl.clear(gl.DEPTH_BUFFER_BIT);
      gl.depthFunc(test);
      skin(tools.place, values);
    }
    gl.disable(gl.DEPTH_TEST);
  }

  function skin(tool, values) {
    tool.use(values);
    gl.bindVertexArray(bait.skin);
    gl.drawElements(gl.TRIANGLES, bait.count, gl.UNSIGNED_INT, 0);
    gl.bindVertexArray(null);
  }

  function light(values, toward) {
    const { plates, tints } = bait;
    if (plates) {
      onto(tints, plates);
      whole(tools.tint, values);
    }
    onto(sheets.drawn, sheets);
    whole(tools.shade, values);
    if (!plates) return;
    if (toward) sorted(gl, plates, toward);
    tools.plate.use({ ...values, tints: tints.texture });
    gl.enable(gl.BLEND);
    gl.blendFunc(gl.SRC_ALPHA, gl.ONE_MINUS_SRC_ALPHA);
    gl.bindVertexArray(plates.array);
    gl.drawArraysInstanced(gl.TRIANGLE_STRIP, 0, 4, plates.order.length);
    gl.bindVertexArray(null);
    gl.disable(gl.BLEND);
  }

  /** The mean of this drawing and those before it of the same view. */
  function keep(values, nth) {
    onto(sheets.mean, sheets);
    if (nth) gl.enable(gl.BLEND);
    gl.blendColor(0, 0, 0, 1 / (nth + 1));
    gl.blendFunc(gl.CONSTANT_ALPHA, gl.ONE_MINUS_CONSTANT_ALPHA);
    whole(tools.kept, values);
    gl.disable(gl.BLEND);
  }

  function show(values) {
    gl.bindFramebuffer(gl.FRAMEBUFFER, null);
    gl.viewport(0, 0, canvas.width, canvas.height);
    whole(tools.shown, { ...values, mean: sheets.mean.texture, size: [canvas.width, canvas.height] });
  }

  function whole(tool, values) {
    tool.use(values);
    gl.drawArrays(gl.TRIANGLES, 0, 3);
  }

  function onto(sheet, { wide, high }, clear) {
    gl.bindFramebuffer(gl.FRAMEBUFFER, sheet.frame);
    gl.viewport(0, 0, wide, high);
    if (clear) gl.clearBufferfv(gl.COLOR, 0, clear);
  }

  /** A lost context takes everything with it; what was loaded must be loaded again. */
  function forget() {
    [tools, bait, sheets, fence] = [null, null, null, null];
  }

  return { load, draw, busy, forget };
}
