// New words in an old place: what was opened stays open, and what says the same is left alone.
export function refill(place, fresh) {
  if (!place || !fresh || place.innerHTML === fresh.innerHTML) return;
  const open = new Set([...place.querySelectorAll("details[open]")].map(nameOf));
  place.replaceChildren(...fresh.childNodes);
  for (const it of place.querySelectorAll("details")) it.open = open.has(nameOf(it));
}

// By what stands over it, without the numbers in it: those change.
function nameOf(details) {
  const part = details.closest("section")?.querySelector("h2, h3")?.textContent;
  const around = details.parentElement.closest("details");
  return [part, around && saidOf(around), saidOf(details)].join().replace(/\d+/g, "");
}

function saidOf(details) {
  return details.dataset.figure ?? details.querySelector("summary").textContent;
}
