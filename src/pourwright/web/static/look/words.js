// What a thickness comes to, in both units, the bench's own first.
const MM_TO_INCH = 25.4;

export function told(thickestMm, scale, us) {
  const mm = thickestMm * scale;
  const [metric, inches] = [`${mm.toFixed(1)} mm`, `${(mm / MM_TO_INCH).toFixed(2)} in`];
  return us ? `${inches} (${metric})` : `${metric} (${inches})`;
}
