// What a page says of its form follows the typing once that pauses; without this script a button
// does the same.
import { refill } from "./refill.js";

const TOLD = ["check-answer", "ask-figure"];
const PAUSE_MS = 250;
let newest = 0;
let waiting = 0;

async function follow(form, turn) {
  const body = new URLSearchParams(new FormData(form));
  body.set("@do", "try");
  const answer = await fetch(form.action, { method: "POST", body, headers: { accept: "text/html" } });
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  if (turn !== newest || !answer.ok) return;
  for (const id of TOLD) refill(document.getElementById(id), page.getElementById(id));
}

document.addEventListener("input", (event) => {
  const form = event.target.closest("#record");
  if (!form || event.target.matches("[data-reshapes]")) return;
  const turn = ++newest;
  clearTimeout(waiting);
  waiting = setTimeout(() => follow(form, turn).catch(() => {}), PAUSE_MS);
});
