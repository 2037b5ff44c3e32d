// Nodes of the page, made in one line each. Text is always text, never markup.

export const at = (id) => document.getElementById(id);

export function make(tag, traits = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(traits)) {
    if (name === "on") {
      for (const [event, act] of Object.entries(value)) node.addEventListener(event, act);
    } else if (name === "class") {
      node.className = value;
    } else if (value === true) {
      node.setAttribute(name, "");
    } else if (value !== false && value !== null && value !== undefined) {
      node.setAttribute(name, value);
    }
  }
  node.append(...children.filter((child) => child !== null && child !== ""));
  return node;
}

export function write(node, text) {
  if (node.textContent !== text) node.textContent = text;
}

export function show(node, shown) {
  if (node.hidden === shown) node.hidden = !shown;
}

export const sign = (name) => at(`sign-${name}`).content.firstElementChild.cloneNode(true);
