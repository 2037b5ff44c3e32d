// Puts the step on the screen, but never under a finger or in the middle of a number.
import { at, write } from "./make.js";

const padWords = (pad) => [pad.label, pad.kind];

/** What stands where: the step, the main pad and the side pads. */
function standing(screen, index, { pads }) {
  return {
    step: JSON.stringify([screen.key, index]),
    main: JSON.stringify(pads.filter((pad) => pad.main).map(padWords)),
    side: JSON.stringify(pads.filter((pad) => !pad.main).map(padWords)),
  };
}

/** The places whose pads are not those that stood there. */
function changed(before, after) {
  const places = ["main", "side"];
  return before.step === after.step ? places.filter((place) => before[place] !== after[place]) : places;
}

export function stage({ view, entries, presses, speaker }) {
  let drawn = { key: "", screen: "", places: null, until: NaN };
  let awaited = false;

  /** Draw `{index, phase, until}` of a screen; `pressing` while a press is at work, `waits` while
   * one is to be answered. Gives whether anything changed. */
  function draw(screen, { index, phase, until }, { code, pressing, waits }) {
    const key = JSON.stringify([screen.key, index, screen.step, phase]);
    const busy = presses.finger() || (entries.typing() && screen.key === drawn.screen);
    const holds = busy && !pressing && drawn.key;
    if (key === drawn.key || !holds) drawn.until = until;
    if (key !== drawn.key && !holds) {
      put(screen, { index, phase, key }, { code, pressing });
      awaited = waits;
      return true;
    }
    if (!holds) awaited = waits;
    return false;
  }

  function put(screen, { index, phase, key }, { code, pressing }) {
    const lost = at("bench").contains(document.activeElement) && document.activeElement.matches(".pad");
    const places = standing(screen, index, phase);
    const moved = drawn.places ? changed(drawn.places, places) : ["main", "side"];
    view.draw(screen, phase, screen.key !== drawn.screen);
    if (moved.length) {
      if (drawn.places && !pressing) presses.deafen(moved, awaited);
      if (lost) at("step").focus({ preventScroll: true });
      write(at("aloud"), [`${screen.step}: ${phase.name}.`, phase.words[0] ?? ""].join(" "));
      speaker.say(`${screen.key}/${index}`, phase.say);
      document.title = `${screen.step}: ${phase.name}, ${code}`;
    }
    drawn = { ...drawn, key, screen: screen.key, places };
  }

  return { draw, until: () => drawn.until };
}
