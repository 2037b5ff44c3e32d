// The programs that draw a look. Numbers and pictures are given to them by name.
import { built } from "../solid/program.js";
import { PLACE_DOT, SKIN_CORNER, THICK_DOT } from "./depth_shader.js";
import { WHOLE_CORNER } from "./head.js";
import { PLATE_CORNER, PLATE_DOT, TINT_DOT } from "./plate_shader.js";
import { KEPT_DOT, SHADE_DOT, SHOWN_DOT } from "./shade_shader.js";

export const programs = (gl) => ({
  thick: one(gl, SKIN_CORNER, THICK_DOT),
  place: one(gl, SKIN_CORNER, PLACE_DOT),
  shade: one(gl, WHOLE_CORNER, SHADE_DOT),
  kept: one(gl, WHOLE_CORNER, KEPT_DOT),
  shown: one(gl, WHOLE_CORNER, SHOWN_DOT),
});

/** What a look with flake takes besides. */
export const flakePrograms = (gl) => ({
  tint: one(gl, WHOLE_CORNER, TINT_DOT),
  plate: one(gl, PLATE_CORNER, PLATE_DOT),
});

const one = (gl, corner, dot) => given(gl, built(gl, corner, dot));

/** The program with `use(values)`: it takes what it knows of them, and a missing one is an error. */
function given(gl, made) {
  const wanted = [];
  for (let i = 0; i < gl.getProgramParameter(made.program, gl.ACTIVE_UNIFORMS); i += 1) {
    const { name, type } = gl.getActiveUniform(made.program, i);
    wanted.push({ name: name.replace("[0]", ""), type, place: gl.getUniformLocation(made.program, name) });
  }
  const put = {
    [gl.FLOAT]: (at, v) => gl.uniform1f(at, v),
    [gl.INT]: (at, v) => gl.uniform1i(at, v),
    [gl.FLOAT_VEC2]: (at, v) => gl.uniform2fv(at, v),
    [gl.FLOAT_VEC3]: (at, v) => gl.uniform3fv(at, v),
    [gl.FLOAT_VEC4]: (at, v) => gl.uniform4fv(at, v),
    [gl.INT_VEC2]: (at, v) => gl.uniform2iv(at, v),
    [gl.INT_VEC3]: (at, v) => gl.uniform3iv(at, v),
    [gl.FLOAT_MAT3]: (at, v) => gl.uniformMatrix3fv(at, false, v),
  };

  function use(values) {
    gl.useProgram(made.program);
    let unit = 0;
    for (const { name, type, place } of wanted) {
      const value = values[name];
      if (value === undefined) throw new Error(`the drawing lacks ${name}`);
      if (type !== gl.SAMPLER_2D) {
        put[type](place, value);
        continue;
      }
      gl.activeTexture(gl.TEXTURE0 + unit);
      gl.bindTexture(gl.TEXTURE_2D, value);
      gl.uniform1i(place, unit);
      unit += 1;
    }
    gl.activeTexture(gl.TEXTURE0);
  }

  return { ...made, use };
}
