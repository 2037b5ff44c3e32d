// How a solid is painted: its mode, the colors of its scale, and the light the page is read in.
const DOTS = 256;
const LIT = "(prefers-color-scheme: dark)";

/** Colors between evenly spaced ones, by straight lines in sRGB, as the scale on the page draws them. */
export function dotsOf(colors) {
  const stops = colors.map(channels);
  const dots = new Uint8Array(DOTS * 4).fill(255);
  for (let i = 0; i < DOTS; i += 1) {
    const place = (i / (DOTS - 1)) * (stops.length - 1);
    const left = Math.min(Math.floor(place), stops.length - 2);
    stops[left].forEach((v, k) => {
      dots[i * 4 + k] = Math.round(v + (stops[left + 1][k] - v) * (place - left));
    });
  }
  return dots;
}

export function painted(box, mode, scale) {
  const style = getComputedStyle(box);
  const value = (name) => style.getPropertyValue(name).trim();
  return {
    mode,
    plastic: channels(value("--bait")).map((v) => v / 255),
    edge: Number(value("--bait-edge")),
    shadow: Number(value("--bait-shadow")),
    most: scale?.most ?? 1,
    lines: new Float32Array(scale?.lines ?? []),
    dots: scale?.dots ?? new Uint8Array(4),
  };
}

/** Calls back when the page is read in another light. */
export function onLight(changed) {
  new MutationObserver(changed).observe(document.documentElement, { attributeFilter: ["data-light"] });
  matchMedia(LIT).addEventListener("change", changed);
}

const channels = (hex) => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
