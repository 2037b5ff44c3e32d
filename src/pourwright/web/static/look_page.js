// The page of a look follows its two forms: the picture at once, what is said of it when they rest.
import { paired, pictureOf } from "./look_follow.js";
import { refill } from "./refill.js";

const PAUSE_MS = 350;
const wish = document.getElementById("wish");
const split = document.getElementById("split");
const figure = document.getElementById("look-picture");
const fine = document.getElementById("fine-picture");
const said = document.getElementById("look-said");
let newest = 0;
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

async function tell(turn) {
  const answer = await fetch(address(), { headers: { accept: "text/html" } });
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  if (turn !== newest || !answer.ok) return;
  refill(said, page.getElementById("look-said"));
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
  const words = link.textContent;
  const turn = newest;
  link.setAttribute("aria-disabled", "true");
  link.textContent = "Drawing it finer …";
  const started = await fetch(link.dataset.job, { method: "POST", body: sent(), headers: { accept: "application/json" } });
  let job = started.ok ? { status: "running", key: (await started.json()).job } : { status: "failed" };
  while (job.status === "running") {
    await new Promise((done) => { setTimeout(done, 400); });
    job = await (await fetch(`/api/jobs/${job.key}`)).json();
  }
  link.removeAttribute("aria-disabled");
  link.textContent = words;
  if (job.status !== "done" || turn !== newest) return;
  fine.src = `data:image/png;base64,${job.answer.picture}`;
  fine.hidden = false;
}

document.documentElement.classList.add("script");
document.querySelectorAll("[data-slide]").forEach(paired);
const picture = figure ? pictureOf(figure, sent) : () => {};
document.getElementById("fine")?.addEventListener("click", (event) => drawFine(event).catch(() => {}));

// Where the browser draws the look itself, the bench's picture under it may rest.
function follow() {
  if (fine) fine.hidden = true;
  if (!document.querySelector("[data-turn][data-live]")) picture();
}

wish.addEventListener("input", () => {
  follow();
  const turn = ++newest;
  clearTimeout(waiting);
  waiting = setTimeout(() => {
    history.replaceState(null, "", address());
    tell(turn).catch(() => {});
  }, PAUSE_MS);
});
split?.addEventListener("input", follow);
