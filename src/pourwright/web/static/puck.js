// Learning takes seconds: say so, and take no second press.
for (const form of document.querySelectorAll(".learn")) {
  form.addEventListener("submit", () => {
    const button = form.querySelector("button");
    button.textContent = "Learning: a few seconds";
    button.setAttribute("aria-busy", "true");
    setTimeout(() => { button.disabled = true; });
  });
}
addEventListener("pageshow", (event) => { if (event.persisted) location.reload(); });
