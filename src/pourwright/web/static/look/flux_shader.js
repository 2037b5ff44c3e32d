// Light through plastic, four bands at a time: layers one behind the other as two fluxes, told as the one
// even slab that looks the same, and that slab looked up in a table of radiative transfer behind a face.
// Sources: Kubelka and Munk, Z. tech. Phys. 12 (1931) 593; Kubelka, J. Opt. Soc. Am. 44 (1954) 330;
// Mudgett and Richards, Appl. Opt. 10 (1971) 1485 (from memory).
export const FLUX = `
const int SLICES = 8, GROUPS = 8, MOST_LAYERS = 5;
const float EVEN = 0.001;

uniform ivec2 octavesLow; // of scattering, of absorption
uniform sampler2D layers; // absorption and reduced scattering of each layer, a row each
uniform int layerCount;

// Of the way that is being followed: share of each layer in each slice from the near end, and their means.
float shares[SLICES * MOST_LAYERS], mean[MOST_LAYERS];

struct Stack { vec4 back, through, lost; };

/** One slice; (1 - exp(-gd))/g is written so that nothing is divided by zero. */
Stack sliceOf(vec4 k, vec4 s, float mm) {
  vec4 g = sqrt(k * (k + 2.0 * s)), gd = g * mm, fade = exp(-gd);
  vec4 held = mix((1.0 - fade) / max(g, 1e-20), mm * (1.0 - gd * (0.5 - gd / 6.0)), lessThan(gd, vec4(0.01)));
  vec4 span = held * (1.0 + fade), taken = held * g;
  vec4 below = (k + s) * span + 1.0 + fade * fade;
  return Stack(s * span / below, 2.0 * fade / below, (k * span + taken * taken) / below);
}

/** A slice before a stack: the sum over all passes between the two. What is lost is summed apart, so that little stays exact. */
Stack before(Stack a, Stack b) {
  vec4 again = a.through / (1.0 - a.back * b.back);
  return Stack(a.back + a.through * again * b.back, again * b.through, a.lost + again * (b.lost + b.back * a.lost));
}

vec4 arsinh(vec4 x) { return mix(log(x + sqrt(x * x + 1.0)), log(2.0 * x), greaterThan(x, vec4(1e4))); }

/** Two-flux absorption and scattering, times thickness, of the even slab that sends back and lets through as much. */
void asEven(Stack found, out vec4 k, out vec4 s) {
  vec4 lost = 0.5 * found.lost * (1.0 + found.through - found.back);
  vec4 both = sqrt(lost * (lost + 2.0 * found.back)), light = max(found.through, 1e-30);
  vec4 ratio = both / light;
  vec4 each = mix(arsinh(ratio) / max(both, 1e-30), 1.0 / light, lessThan(ratio, vec4(1e-3)));
  k = lost * each;
  s = found.back * each;
}

/** The slab that a way through the layers looks like: absorption and reduced scattering times thickness. */
void slabOf(bool mixed, float thick, int group, out vec4 absorb, out vec4 scatter) {
  vec4 absorbs[MOST_LAYERS], scatters[MOST_LAYERS];
  absorb = vec4(0.0);
  scatter = vec4(0.0);
  for (int i = 0; i < layerCount; i++) {
    absorbs[i] = texelFetch(layers, ivec2(group, 2 * i), 0);
    scatters[i] = texelFetch(layers, ivec2(group, 2 * i + 1), 0);
    absorb += mean[i] * absorbs[i];
    scatter += mean[i] * scatters[i];
  }
  absorb *= thick;
  scatter *= thick;
  if (!mixed) return;
  float mm = thick / float(SLICES);
  Stack stack = Stack(vec4(0.0), vec4(1.0), vec4(0.0));
  vec4 sumK = vec4(0.0), sumS = vec4(0.0);
  for (int at = SLICES - 1; at >= 0; at--) {
    vec4 a = vec4(0.0), b = vec4(0.0);
    for (int i = 0; i < layerCount; i++) {
      a += shares[at * MOST_LAYERS + i] * absorbs[i];
      b += shares[at * MOST_LAYERS + i] * scatters[i];
    }
    vec4 k = 2.0 * a, s = max(0.75 * b - 0.25 * a, 0.0);
    stack = before(sliceOf(k, s, mm), stack);
    sumK += k * mm;
    sumS += s * mm;
  }
  vec4 k, s;
  asEven(stack, k, s);
  absorb = max(absorb + (k - sumK) / 2.0, 0.0);
  scatter = max(scatter + (s - sumS + (k - sumK) / 8.0) / 0.75, 0.0);
}

/** By how much slabs are thicker than the table holds: such look endless, and an endless one depends on the ratio alone. */
vec4 beyondTable(sampler2D slab, vec4 absorb, vec4 scatter) {
  vec2 most = exp2(vec2(octavesLow) + vec2(textureSize(slab, 0) - 1) / 16.0);
  return max(max(scatter / most.x, absorb / most.y), 1.0);
}

/** One slab in the table, 16 steps to an octave: a float's exponent and leading bits are the cell, the rest the place in it. */
vec4 looked(sampler2D slab, float absorb, float scatter) {
  ivec2 bits = floatBitsToInt(vec2(scatter, absorb)) - ((127 + octavesLow) << 23);
  vec2 cell = vec2(max(bits, 0)) / 524288.0;
  return textureLod(slab, (cell + 0.5) / vec2(textureSize(slab, 0)), 0.0);
}
`;
