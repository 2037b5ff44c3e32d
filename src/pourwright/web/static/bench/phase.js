// Which phase of a screen the clock is in. Phases follow each other by themselves.
import { here } from "./laptop_time.js";

/** The phase at a moment of the laptop, with the moment it ends (NaN: it does not). */
export function phaseAt(screen, moment) {
  let from = Date.parse(screen.began);
  for (const [index, phase] of screen.phases.entries()) {
    const until = phase.for_s === null ? NaN : from + phase.for_s * 1000;
    const last = index === screen.phases.length - 1;
    if (last || !(moment >= until)) return { index, phase, until };
    from = until;
  }
  throw new RangeError(`screen ${screen.key} has no phase`);
}

/** The same as it is shown: a pour that is over leads out. */
export function stepAt(screen, { over, leave }, moment) {
  const found = phaseAt(screen, moment);
  if (!over || found.phase.pads.some((pad) => pad.main)) return found;
  const out = { label: leave.words, link: leave.address, main: true };
  return { ...found, phase: { ...found.phase, pads: [out, ...found.phase.pads] } };
}

/** The beginnings of phases that ring. */
function phaseAlarms(screen) {
  const found = [];
  let from = Date.parse(screen.began);
  for (const [index, phase] of screen.phases.entries()) {
    if (phase.alarm && index > 0) found.push({ key: `phase:${screen.key}/${index}`, at: here(from), words: phase.name });
    if (phase.for_s === null) break;
    from += phase.for_s * 1000;
  }
  return found;
}

/** All that rings, `{key, at, words}` with `at` in this device's milliseconds as in the clocks. */
export function alarmsOf(screen, clocks) {
  const molds = clocks.map((one) => ({ key: `clock:${one.key}`, at: one.at, words: `${one.name}: ${one.over}` }));
  return [...molds, ...phaseAlarms(screen)];
}

/** The row of a frozen table for a reading in its unit: the first at or above it, whose burst is
 * the shorter one, else the last. */
export function rowFor(rows, { number, unit }) {
  const sorted = rows.filter((row) => row.unit === unit).sort((a, b) => a.from - b.from);
  return sorted.find((row) => row.from >= number) ?? sorted.at(-1);
}
