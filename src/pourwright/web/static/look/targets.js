// Pictures that only the graphics card sees, each as wide and high as the drawing.
const FLOAT = (gl) => ({ inner: gl.RGBA32F, filter: gl.NEAREST });
const HALF = (gl) => ({ inner: gl.RGBA16F, filter: gl.LINEAR });

/** Thickness, front, rear, one drawing, and the mean of drawings: all of the same size. Where the card sums no
 * full floats, half ones do for the thickness: to a hundredth of a millimeter seen from the side. */
export function targets(gl, wide, high, sumsFloats) {
  const [exact, smooth] = [FLOAT(gl), HALF(gl)];
  const found = {
    thick: target(gl, wide, high, sumsFloats ? exact : smooth),
    front: target(gl, wide, high, exact, { deep: true }),
    rear: target(gl, wide, high, exact, { deep: true }),
    drawn: target(gl, wide, high, smooth),
    mean: target(gl, wide, high, smooth),
  };
  const free = () => Object.values(found).forEach((it) => it.free());
  return { ...found, wide, high, free };
}

/** One dot to each flake's color. */
export const tintsOf = (gl, wide, high) => target(gl, wide, high, { ...HALF(gl), filter: gl.NEAREST });

function target(gl, wide, high, { inner, filter }, { deep = false } = {}) {
  const texture = gl.createTexture();
  gl.bindTexture(gl.TEXTURE_2D, texture);
  gl.texStorage2D(gl.TEXTURE_2D, 1, inner, wide, high);
  still(gl, filter);
  const frame = gl.createFramebuffer();
  gl.bindFramebuffer(gl.FRAMEBUFFER, frame);
  gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0, gl.TEXTURE_2D, texture, 0);
  const depth = deep ? gl.createRenderbuffer() : null;
  if (depth) {
    gl.bindRenderbuffer(gl.RENDERBUFFER, depth);
    gl.renderbufferStorage(gl.RENDERBUFFER, gl.DEPTH_COMPONENT24, wide, high);
    gl.framebufferRenderbuffer(gl.FRAMEBUFFER, gl.DEPTH_ATTACHMENT, gl.RENDERBUFFER, depth);
  }
  const free = () => {
    gl.deleteFramebuffer(frame);
    gl.deleteTexture(texture);
    if (depth) gl.deleteRenderbuffer(depth);
  };
  return { texture, frame, free };
}

/** A bound texture without smaller copies of itself, that ends at its edges. */
export function still(gl, filter) {
  for (const name of [gl.TEXTURE_MIN_FILTER, gl.TEXTURE_MAG_FILTER]) gl.texParameteri(gl.TEXTURE_2D, name, filter);
  for (const name of [gl.TEXTURE_WRAP_S, gl.TEXTURE_WRAP_T]) gl.texParameteri(gl.TEXTURE_2D, name, gl.CLAMP_TO_EDGE);
}
