// What the graphics card computes: the skin, and the shadow under it.
const HEAD = `#version 300 es
precision highp float;
`;

export const SKIN_CORNER = `${HEAD}
uniform mat4 matrix;
in vec3 point, normal;
in float thick, order;
out vec3 place, facing;
out float deep, late;
void main() {
  place = point; facing = normal; deep = thick; late = order;
  gl_Position = matrix * vec4(point, 1.0);
}`;

// Lights go with the eye: a key from the upper left, a cool fill from the right, a rim all around.
// Colors that mean something are never lit beyond their own: they are true where the skin faces the eye.
export const SKIN_DOT = `${HEAD}
uniform vec3 eye, right, up, toward, plastic;
uniform float edge, most, lines[9];
uniform int mode, lineCount;
uniform sampler2D scale;
in vec3 place, facing;
in float deep, late;
out vec4 color;

vec3 linear(vec3 c) { return mix(c / 12.92, pow((c + 0.055) / 1.055, vec3(2.4)), step(0.04045, c)); }
vec3 screen(vec3 c) { return mix(c * 12.92, 1.055 * pow(c, vec3(1.0 / 2.4)) - 0.055, step(0.0031308, c)); }

vec3 lit(vec3 n, vec3 v, vec3 base, float glow) {
  vec3 key = normalize(-0.5 * right + 0.85 * up + 0.55 * toward);
  vec3 fill = normalize(0.9 * right - 0.1 * up + 0.4 * toward);
  float ahead = max(dot(n, v), 0.0);
  float wrap = max((dot(n, key) + 0.25) / 1.25, 0.0);
  vec3 light = vec3(1.0, 0.97, 0.92) * 1.12 * pow(wrap, 1.6);
  light += vec3(0.75, 0.87, 1.0) * 0.26 * max((dot(n, fill) + 0.2) / 1.2, 0.0);
  light += mix(vec3(0.09, 0.085, 0.08), vec3(0.20, 0.22, 0.25), n.z * 0.5 + 0.5);
  light += glow * 0.32;
  vec3 thin = pow(base, vec3(mix(1.0, 0.78, glow)));
  float back = max(dot(reflect(-v, n), key), 0.0);
  float gloss = pow(back, 7.0) * 0.10 + pow(back, 40.0) * 0.22 + pow(back, 220.0) * 0.35;
  float rim = pow(1.0 - ahead, 3.5) * (0.24 + 0.25 * glow);
  return thin * light + vec3(gloss) + rim * mix(vec3(0.55), thin, 0.4);
}

void main() {
  vec3 n = normalize(facing), v = normalize(eye - place);
  float ahead = max(dot(n, v), 0.0);
  if (mode == 0) {
    color = vec4(screen(clamp(lit(n, v, linear(plastic), exp(-deep / 3.5)), 0.0, 1.0)), 1.0);
  } else if (mode == 3) {
    vec3 own = texture(scale, vec2(late * 0.99609375 + 0.001953125, 0.5)).rgb;
    color = vec4(screen(clamp(lit(n, v, linear(own), 0.0), 0.0, 1.0)), 1.0);
  } else {
    float value = mode == 1 ? deep / most : late;
    vec3 told = texture(scale, vec2(clamp(value, 0.0, 1.0) * 0.99609375 + 0.001953125, 0.5)).rgb;
    float wide = max(fwidth(value), 1e-6), line = 0.0;
    for (int i = 0; i < lineCount; i++) line = max(line, 1.0 - smoothstep(0.4, 1.3, abs(value - lines[i]) / wide));
    told = mix(told, dot(told, vec3(0.3, 0.6, 0.1)) > 0.5 ? told * 0.62 : told * 0.5 + 0.32, line * 0.8);
    color = vec4(told * mix(0.62, 1.0, smoothstep(0.0, 0.75, ahead)), 1.0);
  }
  color.rgb *= mix(1.0, smoothstep(0.05, 0.34, ahead), edge);
}`;

// The bait pressed flat, seen along the pull.
export const FLAT_CORNER = `${HEAD}
uniform vec4 window;
in vec3 point;
void main() { gl_Position = vec4((point.xy - window.xy) / window.zw, 0.0, 1.0); }`;

export const FLAT_DOT = `${HEAD}
out vec4 color;
void main() { color = vec4(1.0); }`;

export const GROUND_CORNER = `${HEAD}
uniform mat4 matrix;
uniform vec4 window;
uniform float floorZ;
in vec2 corner;
out vec2 spot;
void main() {
  spot = corner * 0.5 + 0.5;
  gl_Position = matrix * vec4(window.xy + corner * window.zw, floorZ, 1.0);
}`;

export const GROUND_DOT = `${HEAD}
uniform sampler2D mask;
uniform float dark;
in vec2 spot;
out vec4 color;
void main() {
  float sum = 0.0;
  for (int i = -2; i <= 2; i++) for (int j = -2; j <= 2; j++) {
    vec2 step = vec2(i, j) * 0.011;
    sum += textureLod(mask, spot + step, 3.0).r + 0.6 * textureLod(mask, spot + step * 2.6, 4.5).r;
  }
  color = vec4(0.0, 0.0, 0.0, dark * sum / 40.0);
}`;

/** A program with its inputs by name. Raises: Error with the card's own words. */
export function built(gl, corner, dot) {
  const program = gl.createProgram();
  for (const [kind, text] of [[gl.VERTEX_SHADER, corner], [gl.FRAGMENT_SHADER, dot]]) {
    const shader = gl.createShader(kind);
    gl.shaderSource(shader, text);
    gl.compileShader(shader);
    gl.attachShader(program, shader);
  }
  gl.linkProgram(program);
  if (!gl.getProgramParameter(program, gl.LINK_STATUS) && !gl.isContextLost()) {
    throw new Error(gl.getProgramInfoLog(program) || "the drawing program does not link");
  }
  const at = new Map();
  return {
    program,
    input: (name) => gl.getAttribLocation(program, name),
    value: (name) => {
      if (!at.has(name)) at.set(name, gl.getUniformLocation(program, name));
      return at.get(name);
    },
  };
}
