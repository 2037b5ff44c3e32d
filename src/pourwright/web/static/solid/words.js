// What a finger on the skin is told.
const MM_TO_INCH = 25.4;

export function told({ point, thick, order }, { mode, us }) {
  const both = (mm) => {
    const [metric, inches] = [`${mm.toFixed(1)} mm`, `${(mm / MM_TO_INCH).toFixed(2)} in`];
    return us ? `${inches} (${metric})` : `${metric} (${inches})`;
  };
  const where = `${both(Math.max(point[0], 0))} from the nose`;
  const filled = mode === "filling" ? ` The plastic gets here when ${Math.round(order * 100)}\u00a0% is full.` : "";
  return `${both(thick)} thick here, ${where}.${filled}`;
}
