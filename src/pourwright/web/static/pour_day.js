// A better timetable is looked for behind the page; it is offered, never swapped under the hand.
const LOOK_MS = 600;
const laid = document.getElementById("laid");
const seek = document.getElementById("seek");
const words = document.getElementById("seek-words");
const share = document.getElementById("seek-share");
const stop = document.getElementById("seek-stop");
const take = document.getElementById("take");

async function json(address, options) {
  const answer = await fetch(address, options);
  const told = await answer.json();
  if (!answer.ok) throw new Error(told.message ?? answer.statusText);
  return told;
}

function told(job, points) {
  if (job.status === "cancelled") return "Stopped looking. This timetable stands.";
  if (job.status === "failed") return `No better timetable: ${job.error?.message ?? "it failed"}.`;
  const spared = points - job.answer.totals.objective;
  if (spared <= 0) return `Nothing better was found. ${job.answer.gap_words}`;
  return `A timetable with ${Math.round((100 * spared) / points)} % fewer points was found. ${job.answer.gap_words}`;
}

async function look() {
  const begun = await json(`/pour-day/${laid.dataset.id}/better`, { method: "POST" });
  seek.hidden = false;
  words.textContent = "Looking for a better timetable …";
  stop.addEventListener("click", () => json(`/api/jobs/${begun.job}/stop`, { method: "POST" }));
  for (;;) {
    const job = await json(`/api/jobs/${begun.job}`);
    share.value = job.share;
    if (job.status !== "running") {
      stop.hidden = share.hidden = true;
      const points = Number(laid.dataset.points);
      words.textContent = told(job, points);
      document.getElementById("gap").hidden = job.status === "done";
      take.hidden = !(job.status === "done" && job.answer.totals.objective < points);
      return;
    }
    await new Promise((rest) => setTimeout(rest, LOOK_MS));
  }
}

look().catch((error) => {
  seek.hidden = false;
  stop.hidden = share.hidden = true;
  words.textContent = `No better timetable: ${error.message}.`;
});
