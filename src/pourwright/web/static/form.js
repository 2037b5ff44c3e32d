// Adding a row or choosing a kind reshapes the form in place; without this script the same
// buttons reload the page.
const ID = "record";

async function reshape(form, button) {
  const data = new FormData(form);
  data.set("@do", button.value);
  const body = new URLSearchParams(data);
  const answer = await fetch(form.action, { method: "POST", body, headers: { accept: "text/html" } });
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const fresh = page.getElementById(ID);
  if (!answer.ok || !fresh) throw new Error(`the form came back with ${answer.status}`);
  form.replaceWith(fresh);
  ready(fresh);
  focusOn(fresh, button);
}

function focusOn(form, button) {
  const target = new URL(button.formAction, location.href).hash.slice(1);
  const place = document.getElementById(target) ?? form;
  const first = place.matches("input, select") ? place : place.querySelector("select, input:not([type=hidden])");
  (first ?? place).focus();
}

function ready(form) {
  form.addEventListener("submit", (event) => {
    const button = event.submitter;
    if (!button || button.value === "save") return;
    event.preventDefault();
    reshape(form, button).catch(() => HTMLFormElement.prototype.submit.call(withCommand(form, button)));
  });
  for (const choice of form.querySelectorAll("[data-reshapes]")) {
    const button = choice.parentElement.querySelector("button");
    button.hidden = true;
    choice.addEventListener("change", () => form.requestSubmit(button));
  }
}

// A submit from script carries no button, so its command travels in a field of its own.
function withCommand(form, button) {
  const field = document.createElement("input");
  Object.assign(field, { type: "hidden", name: "@do", value: button.value });
  form.append(field);
  return form;
}

const form = document.getElementById(ID);
if (form) ready(form);
