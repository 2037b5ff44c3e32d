// While a mold is being made the page says so, and the pad is not pressed twice.
const form = document.getElementById("record");
const words = document.getElementById("making");
const pad = form.querySelector("button[type=submit]");

function busy(on) {
  words.textContent = on ? words.dataset.words : "";
  pad.setAttribute("aria-disabled", String(on));
}

form.addEventListener("submit", (event) => {
  if (words.textContent) event.preventDefault();
  else busy(true);
});
addEventListener("pageshow", () => busy(false)); // also when the browser goes back to it
