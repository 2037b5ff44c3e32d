// Tighten the page step by step until the main pad and "Something wrong" stand on the screen, then
// give the huge figure the room that is left.
import { at } from "./make.js";

const TIGHTEST = 5;

const fits = () => {
  const root = document.documentElement;
  const now = at("now");
  return root.scrollHeight <= root.clientHeight && now.scrollHeight <= now.clientHeight + 1;
};

function roomLeft() {
  const now = at("now").getBoundingClientRect();
  const last = [...at("now").children].filter((child) => child.offsetHeight).at(-1);
  return last ? Math.max(0, now.bottom - last.getBoundingClientRect().bottom) : 0;
}

/** The last step lets the page scroll under the main pad and the trouble button. */
export function fit() {
  const bench = at("bench");
  bench.style.setProperty("--room", "0px");
  for (let tight = 0; tight <= TIGHTEST; tight += 1) {
    bench.dataset.tight = String(tight);
    bench.style.setProperty("--chips-h", `${at("chips").offsetHeight}px`);
    if (fits()) break;
  }
  bench.style.setProperty("--room", `${Math.floor(roomLeft() * 0.9)}px`);
}
