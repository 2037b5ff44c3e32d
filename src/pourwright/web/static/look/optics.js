// What the look is made of, as the bench sends it: a word of numbers by name, then arrays of them.
const MAGIC = 0x314c5750; // "PWL1"
const HEAD_BYTES = 8;
const WORD = 4;

/** Numbers by name, and arrays by name as `{shape, values}`. */
export function parsed(buffer) {
  const [magic, long] = new Uint32Array(buffer, 0, 2);
  if (magic !== MAGIC) throw new Error("the bench sent no optics");
  const { arrays, ...numbers } = JSON.parse(new TextDecoder().decode(new Uint8Array(buffer, HEAD_BYTES, long)));
  let at = HEAD_BYTES + Math.ceil(long / WORD) * WORD;
  const found = { numbers, arrays: {} };
  for (const [name, shape] of Object.entries(arrays)) {
    const values = new Float32Array(buffer, at, shape.reduce((a, b) => a * b, 1));
    found.arrays[name] = { shape, values };
    at += values.byteLength;
  }
  return found;
}

/** A table of slabs: rows, columns and numbers to a node, then every node in halves. */
export function table(buffer) {
  const [rows, columns, layers] = new Uint32Array(buffer, 0, 3);
  return { rows, columns, layers, values: new Uint16Array(buffer, 12) };
}
