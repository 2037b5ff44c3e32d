// The light around: directions are the eye's, to the right, upward, toward the eye.
export const ROOM = `
uniform vec4 roomLight, glintLight; // below, level, above, in the window: as a skin mirrors it, and as a flake does
uniform vec3 roomReach, glintReach; // of the window: wide, tall, soft
uniform mat3 roomAxes, glintAxes; // of the window: to its right, upward, the way to it
uniform float fullRise;
uniform vec4 diffuse; // level, more of it upward and downward, toward the window
uniform float index, glossBehind; // of the plastic over what lies around; a way so far back mirrors what lies behind
uniform vec3 white, veil, beyond;

float bright(vec4 light, vec3 reach, mat3 axes, vec3 way) {
  float rise = min(way.y * way.y / (fullRise * fullRise), 1.0);
  float sky = mix(light.y, way.y > 0.0 ? light.z : light.x, rise);
  vec3 at = way * axes;
  vec2 off = clamp((reach.xy - abs(at.xy / max(at.z, 1e-3))) / reach.z + 0.5, 0.0, 1.0);
  return sky + light.w * off.x * off.y * step(1e-9, at.z);
}

float lit(vec3 n) {
  vec3 key = roomAxes[2];
  float found = diffuse.x + n.y * (n.y > 0.0 ? diffuse.y : -diffuse.z) + diffuse.w * max(dot(n, key), 0.0);
  return max(found, 0.0) / (diffuse.x + diffuse.w * max(key.z, 0.0));
}

/** What lies around, mirrored in the face: Fresnel's equations for light without polarization. */
vec3 gloss(vec3 n) {
  float facing = clamp(n.z, 0.0, 1.0);
  float inside = sqrt(1.0 - (1.0 - facing * facing) / (index * index));
  float s = (facing - index * inside) / (facing + index * inside), p = (inside - index * facing) / (inside + index * facing);
  vec3 way = 2.0 * facing * n - vec3(0.0, 0.0, 1.0);
  float back = clamp(-way.z / glossBehind, 0.0, 1.0);
  return 0.5 * (s * s + p * p) * mix(bright(roomLight, roomReach, roomAxes, way) * white, beyond, back);
}
`;
