// What the skin sends to the eye: its color, its pearl, its gloss, and what lies behind and shines through.
import { DIVISION } from "./division_shader.js";
import { FLUX } from "./flux_shader.js";
import { HEAD } from "./head.js";
import { ROOM } from "./room_shader.js";

/** Where a dot of the picture lies in the bait. */
export const PLACE = `
uniform vec3 right, up, toward, target;
uniform vec2 halfMm, shift, size;
uniform sampler2D thickMap, frontMap, rearMap;
uniform float scale;

const float NOWHERE = -1e8, LEAST_MM = 1e-4;

vec3 placed(vec2 spot, float near) { return target + right * spot.x + up * spot.y + toward * near; }
vec2 spotOf(vec2 dots) { return (dots / size * 2.0 - 1.0 - shift) * halfMm; }
`;

const SHEEN = `
uniform sampler2D sheens; // to each: its share of a layer's scattering, then its reflectance by angle over that straight on
uniform int sheenCount, sheenAngles;
uniform vec3 lobe; // off the mirror angle, on it, how wide
uniform float sheenStep, sheenSpread, leastLost;

float lobeAt(float cosine) {
  float off = acos(clamp(cosine, -1.0, 1.0)) / lobe.z;
  return lobe.x + (lobe.y - lobe.x) * exp(-off * off);
}

/** Brightness of plates that lie about a skin, 1 where it faces the eye. */
float lobeOf(vec3 n) {
  vec3 between = normalize(roomAxes[2] + vec3(0.0, 0.0, 1.0));
  return lobeAt(dot(n, between)) / lobeAt(between.z);
}

/** Reflectance with its pearl turned: scattering is what is scaled, and of a pile of plates R = u / (1 + u). */
vec4 turned(vec4 back, float facing, float mirror, int group) {
  if (sheenCount == 0) return back;
  float last = float(sheenAngles - 1);
  float place = clamp(sheenSpread * asin(sqrt(1.0 - facing * facing) / index) / sheenStep, 0.0, last);
  int low = int(min(floor(place), last - 1.0));
  vec4 factor = vec4(1.0);
  for (int i = 0; i < sheenCount; i++) {
    int row = i * (sheenAngles + 1);
    int layer = int(texelFetch(sheens, ivec2(GROUPS, row), 0).r);
    vec4 share = texelFetch(sheens, ivec2(group, row), 0);
    vec4 steep = texelFetch(sheens, ivec2(group, row + 1 + low), 0), steeper = texelFetch(sheens, ivec2(group, row + 2 + low), 0);
    factor += shares[layer] * share * (mix(steep, steeper, place - float(low)) * mirror - 1.0);
  }
  vec4 held = min(back, leastLost), scattered = held / (1.0 - held) * max(factor, 0.0);
  return scattered / (1.0 + scattered);
}
`;

export const SHADE_DOT = `${HEAD}${FLUX}${DIVISION}${ROOM}${PLACE}${SHEEN}
uniform sampler2D face; // slabs behind their face: sent back, let through, gained to a ground, turned back down
uniform sampler2D sheet; // what it lies on sends back
uniform int lying;
uniform sampler2D weights; // of what is sent back in red, green and blue, then of what shines through
uniform float fade;
out vec4 color;

vec3 weighed(vec4 light, int group, int first) {
  return vec3(dot(light, texelFetch(weights, ivec2(group, first), 0)),
    dot(light, texelFetch(weights, ivec2(group, first + 1), 0)), dot(light, texelFetch(weights, ivec2(group, first + 2), 0)));
}

void main() {
  ivec2 here = ivec2(gl_FragCoord.xy);
  vec4 front = texelFetch(frontMap, here, 0);
  float thick = texelFetch(thickMap, here, 0).r * scale;
  color = vec4(beyond, 1.0);
  if (front.w < NOWHERE || thick < LEAST_MM) return;
  vec2 spot = spotOf(gl_FragCoord.xy);
  bool mixed = divideWay(placed(spot, front.w), placed(spot, texelFetch(rearMap, here, 0).w));
  float facing = clamp(front.z, 0.0, 1.0), mirror = lobeOf(front.xyz);
  vec3 sent = vec3(0.0), passed = vec3(0.0);
  for (int group = 0; group < GROUPS; group++) {
    vec4 absorb, scatter, back, behind, under = texelFetch(sheet, ivec2(group, 0), 0);
    slabOf(mixed, thick, group, absorb, scatter);
    vec4 over = beyondTable(face, absorb, scatter);
    for (int i = 0; i < 4; i++) {
      vec4 slab = looked(face, absorb[i] / over[i], scatter[i] / over[i]);
      back[i] = slab.r;
      behind[i] = lying == 1 ? slab.b / (1.0 - slab.a * under[i]) : slab.g;
    }
    sent += weighed(turned(back, facing, mirror, group), group, 0);
    passed += weighed(behind, group, 3);
  }
  vec3 body = sent * lit(front.xyz) + passed * (1.0 - fade * (1.0 - facing) * (1.0 - facing)) + veil;
  color = vec4(body + gloss(front.xyz), 1.0);
}`;

// Brighter than the knee, brightness is pressed together, so that a glint keeps its shape.
export const SHOWN_DOT = `${HEAD}
uniform sampler2D mean;
uniform vec2 size;
uniform float knee;
out vec4 color;
void main() {
  vec3 rgb = max(texture(mean, gl_FragCoord.xy / size).rgb, 0.0);
  vec3 pressed = min(rgb, knee) + (1.0 - knee) * (1.0 - exp(-max(rgb - knee, 0.0) / (1.0 - knee)));
  color = vec4(mix(12.92 * pressed, 1.055 * pow(max(pressed, 1e-12), vec3(1.0 / 2.4)) - 0.055, step(0.0031308, pressed)), 1.0);
}`;

export const KEPT_DOT = `${HEAD}
uniform sampler2D drawn;
out vec4 color;
void main() { color = texelFetch(drawn, ivec2(gl_FragCoord.xy), 0); }`;
