// The page of a look follows its two forms: the picture at once, what is said of it when they rest.
import { answered } from "./answer.js";
import { drawn, paired, pictureOf } from "./look_follow.js";
import { refill } from "./refill.js";

const PAUSE_MS = 350;
const JOB_MS = 400;
const wish = document.getElementById("wish");
const split = document.getElementById("split");
const figure = document.getElementById("look-picture");
const fine = document.getElementById("fine-picture");
const trouble = figure?.querySelector(".trouble");
let newest = 0; // move of either form
let wished = 0; // and of the one that the words follow
let waiting = 0;

function sent() {
  const body = new URLSearchParams(new FormData(wish));
  if (!split) return body;
  for (const [name, value] of new FormData(split)) if (!name.startsWith("@")) body.set(name, value);
  return body;
}

function address() {
  return `${wish.action}?${new URLSearchParams(new FormData(wish))}`;
}

// A picture that came or went takes another page; one that only fails keeps its place, where the reason is said.
function otherPage(page) {
  const there = Boolean(page.getElementById("look-picture"));
  return figure ? !there && trouble.hidden : there;
}

async function tell(turn) {
  const answer = await fetch(address(), { headers: { accept: "text/html" } });
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  if (turn !== wished || !answer.ok) return;
  if (otherPage(page)) {
    location.replace(address());
    return;
  }
  for (const id of ["look-ways", "look-said"]) refill(document.getElementById(id), page.getElementById(id));
  const words = figure && page.querySelector("#look-picture figcaption");
  if (!words) return;
  refill(figure.querySelector("figcaption"), words);
  const [image, fresh] = [figure, page].map((it) => it.querySelector(".look-image"));
  image.alt = fresh.alt;
  fine.alt = fresh.alt;
  document.getElementById("fine").href = page.getElementById("fine").href;
}

// In the background: it takes seconds. A click that opens it elsewhere still does.
async function drawFine(event) {
  if (event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  const link = event.currentTarget;
  if (link.hasAttribute("aria-disabled")) return;
  const words = link.textContent;
  const turn = newest;
  link.setAttribute("aria-disabled", "true");
  link.textContent = "Drawing it finer …";
  try {
    const picture = await finest(link.dataset.job);
    if (turn === newest) showFine(picture);
    else URL.revokeObjectURL(picture);
  } catch (error) {
    if (turn === newest) complain(`No finer picture: ${error.message}.`);
  } finally {
    link.removeAttribute("aria-disabled");
    link.textContent = words;
  }
}

async function finest(address) {
  const body = sent();
  const begun = await json(address, { method: "POST", body });
  for (;;) {
    const job = await json(`/api/jobs/${begun.job}`);
    if (job.status === "done") return drawn(figure, body, fine.getAttribute("width"));
    if (job.status !== "running") throw new Error(job.error?.message ?? job.status);
    await new Promise((done) => { setTimeout(done, JOB_MS); });
  }
}

const json = async (address, how) => (await answered(address, how)).json();

function showFine(picture) {
  if (fine.src) URL.revokeObjectURL(fine.src);
  fine.src = picture;
  fine.hidden = false;
  complain("");
}

function complain(words) {
  trouble.textContent = words;
  trouble.hidden = !words;
}

document.documentElement.classList.add("script");
document.querySelectorAll("[data-slide]").forEach(paired);
const picture = figure ? pictureOf(figure, sent) : () => {};
document.getElementById("fine")?.addEventListener("click", drawFine);
figure?.addEventListener("bench-picture", picture);

// Where the browser draws the look itself, the bench's picture under it may rest.
function follow() {
  newest += 1;
  if (fine) fine.hidden = true;
  if (!document.querySelector("[data-turn][data-live]")) picture();
}

wish.addEventListener("input", () => {
  follow();
  const turn = ++wished;
  clearTimeout(waiting);
  waiting = setTimeout(() => {
    history.replaceState(null, "", address());
    tell(turn).catch(() => {});
  }, PAUSE_MS);
});
split?.addEventListener("input", follow);
