// The picture of a look follows every move: a small one at once, the full one when the hand rests.
// One is asked for at a time, and then only for the newest move, so that none piles up.
import { answered } from "./answer.js";

const SMALL_PX = 256;
const FULL_PX = 640;
const REST_MS = 300;

/** A picture of what the forms hold, that wide, as an address of this page's own. */
export async function drawn(figure, body, pixels, signal) {
  body.set("px", String(pixels));
  const answer = await answered(figure.dataset.picture, { method: "POST", body, signal });
  return URL.createObjectURL(await answer.blob());
}

export function pictureOf(figure, sent) {
  const image = figure.querySelector(".look-image");
  const line = figure.querySelector(".trouble");
  let move = 0;
  let shown = 0;
  let asking = false;
  let resting = 0;
  let full = null;

  async function show(address, turn, size) {
    const before = image.src;
    image.src = address;
    try {
      await image.decode();
    } finally {
      if (before.startsWith("blob:")) URL.revokeObjectURL(before);
    }
    line.hidden = true;
    Object.assign(figure.dataset, { turn: String(turn), size });
  }

  function refuse(error, turn) {
    if (turn !== move || error.name === "AbortError") return; // a newer picture is on its way
    line.textContent = `No new picture: ${error.message}.`;
    line.hidden = false;
    Object.assign(figure.dataset, { turn: String(turn), size: "none" });
  }

  async function small() {
    asking = true;
    while (shown < move) {
      const turn = move;
      const began = performance.now();
      try {
        await show(await drawn(figure, sent(), SMALL_PX), turn, "small");
        figure.dataset.ms = String(Math.round(performance.now() - began));
      } catch (error) { refuse(error, turn); }
      shown = turn;
    }
    asking = false;
    clearTimeout(resting);
    resting = setTimeout(large, REST_MS);
  }

  async function large() {
    const turn = move;
    full = new AbortController();
    try {
      const address = await drawn(figure, sent(), FULL_PX, full.signal);
      if (turn === move) await show(address, turn, "full");
      else URL.revokeObjectURL(address);
    } catch (error) { refuse(error, turn); }
  }

  return () => {
    move += 1;
    clearTimeout(resting);
    full?.abort();
    if (!asking) small();
  };
}

// A slider and the box beside it say the same.
export function paired(row) {
  const range = row.querySelector("input[type=range]");
  const box = row.querySelector("input[type=text], input[type=number]");
  range.addEventListener("input", () => { box.value = range.value; });
  box.addEventListener("input", () => { if (box.value.trim() !== "") range.value = box.value; });
}
