// Which layer of the look lies at a place of the bait, which stands with its back to z: shares that add up to 1.
export const DIVISION = `
const int MOST_WAVES = 8;

uniform float acrossSide, lineMm, lowLineMm, softMm, edgeMm, coreShare;
uniform vec4 waves[MOST_WAVES]; // amplitude, length, phase, slant
uniform int waveCount, stackCount, veinAt, coreAt;
uniform ivec3 stackAt; // layers one on the other, from the belly up
uniform vec3 vein; // height of its middle, how high, how wide
uniform vec2 stations; // first and last of the profile
uniform sampler2D profile; // middle and half up, middle and half across

float risen(float steps) { return 0.5 + 0.5 * tanh(clamp(steps * 0.5, -20.0, 20.0)); }

vec4 roundAt(float x) {
  float last = float(textureSize(profile, 0).x - 1);
  float place = clamp((x - stations.x) / (stations.y - stations.x), 0.0, 1.0) * last;
  int low = int(min(floor(place), last - 1.0));
  return mix(texelFetch(profile, ivec2(low, 0), 0), texelFetch(profile, ivec2(low + 1, 0), 0), place - float(low));
}

float swing(float x, float across) {
  float sum = 0.0;
  for (int i = 0; i < waveCount; i++) sum += waves[i].x * sin(6.28318531 * x / waves[i].y + waves[i].z + waves[i].w * across);
  return sum;
}

float inCore(vec4 body, float up, float across) {
  vec2 halves = max(body.yw, edgeMm);
  float outward = length(vec2(up - body.x, across - body.z) / halves);
  return risen((coreShare - outward) * min(halves.x, halves.y) / edgeMm);
}

float inVein(vec4 body, float up, float across) {
  float high = vein.y / 2.0 - abs(up - vein.x), wide = vein.z / 2.0 - abs(across - body.z);
  return risen(high / edgeMm) * risen(wide / edgeMm);
}

void divide(vec3 at, int slice) {
  int first = slice * MOST_LAYERS;
  for (int i = 0; i < MOST_LAYERS; i++) shares[first + i] = 0.0;
  float across = acrossSide * at.y, left = 1.0;
  vec4 body = coreAt < 0 && veinAt < 0 ? vec4(0.0) : roundAt(at.x);
  if (coreAt >= 0) {
    shares[first + coreAt] = inCore(body, at.z, across);
    left -= shares[first + coreAt];
  }
  if (veinAt >= 0) {
    shares[first + veinAt] = left * inVein(body, at.z - swing(at.x, across), across);
    left -= shares[first + veinAt];
  }
  if (stackCount == 1) {
    shares[first + stackAt.x] = left;
    return;
  }
  float height = at.z - swing(at.x, across);
  float top = risen((height - lineMm) / softMm);
  float low = stackCount == 3 ? risen((height - lowLineMm) / softMm) : top;
  shares[first + stackAt.x] = left * (1.0 - low);
  shares[first + stackAt.y] = left * (stackCount == 3 ? low - top : low);
  if (stackCount == 3) shares[first + stackAt.z] = left * top;
}

/** Shares in each slice of a way and their means; tells whether they differ along it. */
bool divideWay(vec3 from, vec3 to) {
  for (int at = 0; at < SLICES; at++) divide(mix(from, to, (float(at) + 0.5) / float(SLICES)), at);
  bool mixed = false;
  for (int i = 0; i < MOST_LAYERS; i++) {
    float low = 1.0, high = 0.0, sum = 0.0;
    for (int at = 0; at < SLICES; at++) {
      float share = shares[at * MOST_LAYERS + i];
      low = min(low, share);
      high = max(high, share);
      sum += share;
    }
    mean[i] = sum / float(SLICES);
    mixed = mixed || high - low > EVEN;
  }
  return mixed;
}
`;
