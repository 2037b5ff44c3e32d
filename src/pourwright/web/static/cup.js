// A clock for the burst with an absolute end, so that a reload or a sleeping phone loses nothing.
// Without this script the form below does the same by hand.
const REST_S = 15;
const place = document.getElementById("clock");
const form = document.getElementById("record");
const late = form?.elements.namedItem("late");
const seconds = form?.elements.namedItem("heated_s");
const kept = {
  get: () => { try { return JSON.parse(localStorage.getItem(place.dataset.key)); } catch { return null; } },
  set: (run) => { try { localStorage.setItem(place.dataset.key, JSON.stringify(run)); } catch { /* a clock of this page only */ } },
};
// The cup cools while nobody looks: after so long the next move is asked for anew.
const STALE_MS = 120_000;
const opened = Date.now();
let run = null;
let touched = false;

function words(left) {
  const whole = Math.max(0, Math.ceil(left));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

function wanted() {
  const [minutes, rest] = String(seconds.value).replace(",", ".").split(":");
  const typed = rest === undefined ? Number(minutes) : Number(minutes) * 60 + Number(rest);
  return Number.isFinite(typed) && typed > 0 ? typed : 0;
}

function draw() {
  const digits = document.getElementById("digits");
  const button = document.getElementById("run");
  place.classList.toggle("runs", run !== null);
  if (run === null) {
    button.textContent = `Start ${words(wanted())}`;
    return;
  }
  const left = run.forS - (Date.now() - run.began) / 1000;
  place.classList.toggle("over", left <= 0);
  if (left > 0) {
    digits.textContent = words(left);
    button.textContent = "Stopped early";
  } else {
    digits.textContent = left > -REST_S ? `Rest ${words(REST_S + left)}` : "Stir, read";
    button.textContent = "Start over";
  }
}

function refresh() {
  const stale = Date.now() - opened > STALE_MS && "cools" in place.dataset;
  if (stale && run === null && !touched && !document.hidden) location.reload();
}

function press() {
  if (run === null) {
    if (!wanted()) return;
    run = { began: Date.now(), forS: wanted() };
  } else {
    const gone = (Date.now() - run.began) / 1000;
    if (gone < run.forS) {
      run = { began: run.began, forS: Math.max(1, Math.round(gone)) };
      seconds.value = String(run.forS);
    } else {
      run = null;
    }
  }
  kept.set(run);
  draw();
}

if (place && form) {
  run = kept.get();
  place.hidden = false;
  document.getElementById("run").addEventListener("click", press);
  seconds.addEventListener("input", () => { if (run === null) draw(); });
  form.addEventListener("input", () => { touched = true; });
  setInterval(() => { draw(); refresh(); }, 250);
  draw();
  form.addEventListener("submit", () => {
    const began = run && !late.checked ? (Date.now() - run.began) / 1000 : "";
    document.getElementById("started").value = began === "" ? "" : began.toFixed(1);
  });
}
addEventListener("pageshow", (event) => { if (event.persisted) location.reload(); });
