// Why a press did not count: over the step for two seconds, so that no pad moves under the hand.
import { make } from "./make.js";

const STANDS_MS = 2000;

export function brief(place) {
  let timer = null;

  return (words) => {
    clearTimeout(timer);
    place.replaceChildren(make("p", {}, words));
    timer = setTimeout(() => place.replaceChildren(), STANDS_MS);
  };
}
