// The plan follows every keystroke: the form goes to the server, the batch comes back as HTML.
// Only the newest answer is shown.
import { refill } from "./refill.js";

const form = document.getElementById("plan-form");
const result = document.getElementById("plan-result");
let newest = 0;

async function follow() {
  const turn = ++newest;
  const body = new URLSearchParams(new FormData(form));
  body.delete("@do");
  const answer = await fetch("/plan/preview", { method: "POST", body });
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  if (turn !== newest || !answer.ok) return;
  refill(result, page.body);
}

if (form && result) {
  form.addEventListener("input", () => follow().catch(() => {}));
}
