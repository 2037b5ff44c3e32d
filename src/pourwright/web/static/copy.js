// A button that copies a text beside it.
for (const box of document.querySelectorAll("[data-copy]")) {
  const text = box.querySelector("textarea");
  if (!text) continue;
  const button = document.createElement("button");
  button.type = "button";
  button.className = "quiet";
  button.textContent = "Copy";
  button.addEventListener("click", async () => {
    text.select();
    try {
      await navigator.clipboard.writeText(text.value);
      button.textContent = "Copied";
    } catch {
      button.textContent = "Selected: copy it by hand";
    }
  });
  box.append(button);
}
