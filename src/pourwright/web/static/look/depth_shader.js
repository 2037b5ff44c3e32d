// How deep the bait is behind each dot of the picture, and where it begins and ends there.
// The sum over all skin, what the eye enters less what it leaves, needs no order: the ways through air fall out.
import { HEAD } from "./head.js";

export const SKIN_CORNER = `${HEAD}
uniform vec3 right, up, toward, target;
uniform vec2 halfMm, shift;
uniform float reach;
layout(location = 0) in vec3 point;
layout(location = 1) in vec3 normal;
out vec3 facing;
out float near;
void main() {
  vec3 at = point - target;
  near = dot(at, toward);
  facing = vec3(dot(normal, right), dot(normal, up), dot(normal, toward));
  gl_Position = vec4(vec2(dot(at, right), dot(at, up)) / halfMm + shift, -near / reach, 1.0);
}`;

export const THICK_DOT = `${HEAD}
in vec3 facing;
in float near;
out vec4 sum;
void main() {
  float side = gl_FrontFacing ? 1.0 : -1.0;
  sum = vec4(side * near, side, 0.0, 0.0);
}`;

export const PLACE_DOT = `${HEAD}
in vec3 facing;
in float near;
out vec4 place;
void main() { place = vec4(normalize(facing), near); }`;
