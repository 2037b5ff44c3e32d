// Sliders and swatches follow each other through the server; only the newest answer is shown.
import { paired, pictureOf } from "./look_follow.js";

const form = document.getElementById("color-form");
const sliders = document.getElementById("sliders");
const base = form.action;
const figure = document.getElementById("look-picture");
const picture = figure ? pictureOf(figure, () => new URLSearchParams(new FormData(form))) : () => {};
let newest = 0;

async function sent(path) {
  const answer = await fetch(`${base}/${path}`, { method: "POST", body: new URLSearchParams(new FormData(form)) });
  return answer.text();
}

async function follow() {
  picture();
  const turn = ++newest;
  const html = await sent("preview");
  if (turn !== newest) return;
  const box = document.getElementById("swatches");
  box.innerHTML = html;
  box.dataset.turn = String(turn);
}

function add(material, measure, name, amount) {
  const option = [...document.getElementById("add-material").options].find((it) => it.value.startsWith(`${material}|`));
  const [, usual, step, most] = option ? option.value.split("|") : [];
  const same = usual === measure;
  const rows = document.getElementById("rows");
  const n = Number(rows.value);
  rows.value = String(n + 1);
  const row = document.createElement("div");
  row.className = "slider";
  const put = (tag, settings) => Object.assign(document.createElement(tag), settings);
  const label = put("label", { htmlFor: `amount-${n}`, textContent: `${name} ` });
  label.append(put("span", { className: "faint", textContent: measure }));
  const range = put("input", { type: "range", min: "0", max: String(Math.max(same ? Number(most) : 0, amount * 2)), step: same ? step : "any", value: String(amount), ariaLabel: `${name}, slide` });
  const number = put("input", { type: "number", inputMode: "decimal", id: `amount-${n}`, name: `amount-${n}`, min: "0", max: "400", step: "any", value: String(amount) });
  row.append(put("input", { type: "hidden", name: `material-${n}`, value: material }), put("input", { type: "hidden", name: `measure-${n}`, value: measure }), label, range, number);
  sliders.append(row);
  paired(row);
}

function use(card) {
  const bottles = new Set(JSON.parse(card.closest("[data-bottles]").dataset.bottles));
  const counted = new Map([...card.querySelectorAll("li[data-material]")].map((li) => [li.dataset.material, li]));
  for (const row of sliders.children) {
    const material = row.querySelector("[name^=material-]").value;
    const measure = row.querySelector("[name^=measure-]").value;
    const number = row.querySelector("input[type=number]");
    const li = counted.get(material);
    if (li && li.dataset.measure === measure) { number.value = String(+Number(li.dataset.amount).toFixed(3)); counted.delete(material); }
    else if (li || bottles.has(material)) number.value = "0"; // a match counts out every bottle anew
    row.querySelector("input[type=range]").value = number.value;
  }
  for (const [material, li] of counted) add(material, li.dataset.measure, li.dataset.name, +Number(li.dataset.amount).toFixed(3));
  follow();
  document.getElementById("h-swatch").scrollIntoView({ block: "start" });
}

async function watch(line) {
  const answer = await fetch(`/api/jobs/${line.dataset.job}`);
  const job = await answer.json();
  if (job.status === "running") { setTimeout(() => watch(line), 700); return; }
  if (job.status !== "done") { line.textContent = `The proof stopped: ${job.error?.why ?? job.status}.`; return; }
  const best = job.answer.closest[0];
  const doses = best.doses.map((d) => `${d.words} ${d.name}`).join(", ") || "plain plastic";
  line.textContent = job.answer.proven
    ? `Proven: in daylight no recipe of whole steps within the limits comes nearer than ${best.delta_e00.toFixed(2)} (${doses}). That proves the model, not the pour.`
    : `Not closed: ${doses} is ${best.delta_e00.toFixed(2)} off, and another could be nearer by ${job.answer.gap.toFixed(2)} at most. That speaks of the model, not of the pour.`;
}

async function show(button, path, box) {
  button.disabled = true;
  try { box.innerHTML = await sent(path); } finally { button.disabled = false; }
}

for (const row of sliders.children) paired(row);
form.addEventListener("input", () => { follow().catch(() => {}); });
document.getElementById("add-material").addEventListener("change", (event) => {
  const [material, measure, step] = event.target.value.split("|");
  if (material) { add(material, measure, event.target.selectedOptions[0].textContent, Number(step)); follow(); }
  event.target.value = "";
  document.getElementById("none-yet")?.remove();
});
document.getElementById("target-pick").addEventListener("input", async (event) => {
  const answer = await fetch(`${base}/target?hex=${encodeURIComponent(event.target.value)}`);
  if (!answer.ok) return;
  const lab = await answer.json();
  form.elements.target_l.value = lab.lightness.toFixed(1);
  form.elements.target_a.value = lab.a.toFixed(1);
  form.elements.target_b.value = lab.b.toFixed(1);
  follow();
});
document.getElementById("bait").addEventListener("input", (event) => {
  if (event.target.value) form.elements.thick_mm.value = event.target.value; // the form follows
});
const box = document.getElementById("recipes");
document.getElementById("find").addEventListener("click", (event) => show(event.target, "recipes", box));
box.addEventListener("click", (event) => { if (event.target.matches(".use")) use(event.target.closest(".recipe")); });
document.getElementById("prove").addEventListener("click", async (event) => {
  const line = document.getElementById("proof");
  await show(event.target, "proof", line);
  const job = line.querySelector("[data-job]");
  if (job) watch(job);
});
document.getElementById("cure-button")?.addEventListener("click", (event) => show(event.target, "cure", document.getElementById("cure")));
