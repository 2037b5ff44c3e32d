// Which light the page is read in, remembered on this device. Runs before the page is drawn.
const LIGHTS = ["auto", "sunlight", "dark"];
const root = document.documentElement;

function remembered() {
  try {
    const found = localStorage.getItem("light");
    return LIGHTS.includes(found) ? found : "auto";
  } catch {
    return "auto";
  }
}

function shine(light) {
  root.dataset.light = light;
  try {
    localStorage.setItem("light", light);
  } catch {
    // A browser that keeps nothing still changes the light of this page.
  }
}

root.dataset.light = remembered();

document.addEventListener("DOMContentLoaded", () => {
  const button = document.getElementById("light");
  if (!button) return;
  const say = () => {
    button.textContent = `Light: ${root.dataset.light}`;
  };
  button.hidden = false;
  say();
  button.addEventListener("click", () => {
    shine(LIGHTS[(LIGHTS.indexOf(root.dataset.light) + 1) % LIGHTS.length]);
    say();
  });
});
