// The plan follows every keystroke: the form goes to the server, the batch comes back as HTML.
// Only the newest answer is shown, and what was open stays open.
const form = document.getElementById("plan-form");
const result = document.getElementById("plan-result");
let newest = 0;

async function follow() {
  const turn = ++newest;
  const body = new URLSearchParams(new FormData(form));
  body.delete("@do");
  const answer = await fetch("/plan/preview", { method: "POST", body });
  const html = await answer.text();
  if (turn !== newest || !answer.ok) return;
  const open = new Set([...result.querySelectorAll("details[open]")].map(nameOf));
  result.innerHTML = html;
  for (const it of result.querySelectorAll("details")) it.open = open.has(nameOf(it));
  result.dataset.turn = String(turn);
}

function nameOf(details) {
  return details.dataset.figure ?? details.querySelector("summary").textContent;
}

if (form && result) {
  form.addEventListener("input", () => follow().catch(() => { result.dataset.lost = "true"; }));
}
