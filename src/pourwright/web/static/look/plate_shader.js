// Flakes: the color of each, once to a drawing, and then its hexagon.
import { DIVISION } from "./division_shader.js";
import { FLUX } from "./flux_shader.js";
import { HEAD } from "./head.js";
import { ROOM } from "./room_shader.js";
import { PLACE } from "./shade_shader.js";

// Where flakes lie is kept in pictures, a flake a dot.
const LYING = `
uniform sampler2D spots; // middle and size flat to flat
uniform sampler2D tilts; // normal and turn in its own plane

ivec2 dotOf(int which) { return ivec2(which % textureSize(spots, 0).x, which / textureSize(spots, 0).x); }
vec3 seenFrom(vec3 way) { return vec3(dot(way, right), dot(way, up), dot(way, toward)); }
vec3 turnedToEye(vec3 normal) { return normal.z < 0.0 ? -normal : normal; }
`;

const MIRROR = `
uniform float keptIn, meanGlint;

/** Snell's law; false where none gets out. */
bool bent(vec3 way, vec3 n, float ratio, out vec3 found) {
  float across = -dot(way, n), root = 1.0 - ratio * ratio * (1.0 - across * across);
  bool gone = root > 0.0 && across > 0.0;
  found = gone ? ratio * way + (ratio * across - sqrt(root)) * n : way;
  return gone;
}

/** Brightness of a mirror within the plastic, 1 on average. */
float glint(vec3 plate, vec3 skin) {
  vec3 inward, outward;
  bent(vec3(0.0, 0.0, -1.0), skin, 1.0 / index, inward);
  vec3 turned = reflect(inward, plate);
  return (bent(turned, -skin, index, outward) ? bright(glintLight, glintReach, glintAxes, outward) : keptIn) / meanGlint;
}
`;

export const TINT_DOT = `${HEAD}${FLUX}${DIVISION}${ROOM}${PLACE}${LYING}${MIRROR}
uniform sampler2D sorts, shows; // which sort each is, what a face of each sort shows
uniform sampler2D buried; // sent back over black, gained to a ground, turned back down
uniform sampler2D weights;
uniform int plateCount;
out vec4 color;

void main() {
  ivec2 own = ivec2(gl_FragCoord.xy);
  color = vec4(0.0);
  if (own.y * textureSize(spots, 0).x + own.x >= plateCount) return;
  vec3 middle = texelFetch(spots, own, 0).xyz, at = seenFrom(middle - target);
  vec2 dots = ((at.xy / halfMm + shift) * 0.5 + 0.5) * size;
  ivec2 under = ivec2(floor(dots));
  if (any(lessThan(under, ivec2(0))) || any(greaterThanEqual(under, ivec2(size)))) return;
  vec4 front = texelFetch(frontMap, under, 0);
  float depth = front.w - at.z;
  if (front.w < NOWHERE || depth < 0.0) return;
  bool mixed = divideWay(placed(at.xy, front.w), middle);
  int sort = int(texelFetch(sorts, own, 0).r);
  vec3 normal = turnedToEye(seenFrom(texelFetch(tilts, own, 0).xyz)), sent = vec3(0.0);
  float flash = glint(normal, front.xyz);
  for (int group = 0; group < GROUPS; group++) {
    vec4 absorb, scatter, back, ground = texelFetch(shows, ivec2(group, sort), 0);
    slabOf(mixed, depth * scale, group, absorb, scatter);
    vec4 over = beyondTable(buried, absorb, scatter);
    for (int i = 0; i < 4; i++) {
      vec4 slab = looked(buried, absorb[i] / over[i], scatter[i] / over[i]);
      back[i] = slab.r + flash * slab.g * ground[i] / (1.0 - slab.b * ground[i]);
    }
    sent += vec3(dot(back, texelFetch(weights, ivec2(group, 0), 0)),
      dot(back, texelFetch(weights, ivec2(group, 1), 0)), dot(back, texelFetch(weights, ivec2(group, 2), 0)));
  }
  color = vec4(sent * lit(front.xyz) + veil, 1.0);
}`;

export const PLATE_CORNER = `${HEAD}${PLACE}${LYING}
uniform sampler2D tints;
uniform float edgeOn;
in float which;
in vec2 corner;
out vec2 off;
flat out vec4 ways;
flat out vec3 tint;
flat out float halfSize, narrow;

void main() {
  ivec2 own = dotOf(int(which));
  vec4 spot = texelFetch(spots, own, 0), tilt = texelFetch(tilts, own, 0), seen = texelFetch(tints, own, 0);
  vec3 n = turnedToEye(seenFrom(tilt.xyz)), at = seenFrom(spot.xyz - target);
  vec3 one = normalize(cross(n, abs(n.x) < 0.8 ? vec3(1.0, 0.0, 0.0) : vec3(0.0, 1.0, 0.0))), two = cross(n, one);
  ways = vec4((cos(tilt.w) * one + sin(tilt.w) * two).xy, (cos(tilt.w) * two - sin(tilt.w) * one).xy);
  float dotMm = 2.0 * halfMm.x / size.x;
  tint = seen.rgb;
  halfSize = spot.w / 2.0 / dotMm;
  narrow = n.z;
  float reach = halfSize * 1.1547005 + 1.0;
  off = corner * reach;
  vec2 stand = at.xy / halfMm + shift + off * 2.0 / size;
  gl_Position = seen.a > 0.0 && n.z > edgeOn ? vec4(stand, 0.0, 1.0) : vec4(2.0, 2.0, 2.0, 1.0);
}`;

export const PLATE_DOT = `${HEAD}${ROOM}
uniform sampler2D frontMap;
in vec2 off;
flat in vec4 ways;
flat in vec3 tint;
flat in float halfSize, narrow;
out vec4 color;

void main() {
  vec4 front = texelFetch(frontMap, ivec2(gl_FragCoord.xy), 0);
  if (front.w < -1e8) discard;
  float area = ways.x * ways.w - ways.y * ways.z;
  float u = (ways.w * off.x - ways.z * off.y) / area, v = (ways.x * off.y - ways.y * off.x) / area;
  float slant = 0.8660254 * u;
  float outward = max(abs(v), max(abs(slant + v / 2.0), abs(slant - v / 2.0)));
  float cover = clamp((halfSize - outward) * narrow + 0.5, 0.0, 1.0) * min(1.0, 2.0 * halfSize * narrow);
  if (cover < 0.02) discard;
  color = vec4(tint + gloss(front.xyz), cover);
}`;
