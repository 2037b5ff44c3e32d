// The boxes of a screen: what was typed outlives a new State as long as the box has the same name.
import { make, show, write } from "./make.js";
import { numberOf, typed } from "./figures.js";

/** The boxes in `place`; wrong values are said in `said`; `resized()` when that takes room. */
export function boxes(place, said, resized) {
  let entries = [];
  let texts = new Map();
  let units = new Map();

  const textOf = (entry) => texts.get(entry.name) ?? entry.value;
  const unitOf = (entry) => {
    const fit = entry.choices?.find(([, label]) => label === entry.unit) ?? entry.choices?.[0];
    return units.get(entry.name) ?? fit?.[0];
  };
  const isOwnUnit = (entry) => {
    const label = entry.choices?.find(([key]) => key === unitOf(entry))?.[1];
    return label === undefined || label === entry.unit;
  };
  const inputOf = (entry) => place.querySelector(`[name="${entry.name}"]`);

  function draw(next, fresh) {
    const active = place.contains(document.activeElement) ? document.activeElement.name : null;
    const stays = next.some((entry) => entry.name === active);
    if (fresh) texts = new Map(stays && texts.has(active) ? [[active, texts.get(active)]] : []);
    if (fresh) units = new Map();
    entries = next;
    place.replaceChildren(...entries.map(drawn));
    place.classList.toggle("is-many", entries.length > 2);
    show(said, false);
    if (stays) inputOf({ name: active }).focus({ preventScroll: true });
  }

  function drawn(entry) {
    const input = make("input", {
      id: `entry-${entry.name}`, name: entry.name, type: "text", autocomplete: "off", enterkeyhint: "done",
      inputmode: Number.isInteger(entry.step) ? "numeric" : "decimal", "aria-required": String(entry.required),
    });
    input.value = textOf(entry);
    input.addEventListener("input", () => {
      texts.set(entry.name, input.value);
      clearProblem();
    });
    const about = entry.required ? null : make("span", { class: "may-stay" }, " may stay empty");
    return make("div", { class: "entry" },
      make("div", { class: "entry-row" },
        make("div", { class: "entry-box" }, make("label", { for: input.id }, entry.label, about), input, entry.choices ? chosen(entry) : make("span", { class: "entry-unit" }, entry.unit)),
        ...entry.adds.map((add) => adder(entry, input, add))));
  }

  function adder(entry, input, add) {
    const label = `${add < 0 ? "−" : "+"}${typed(Math.abs(add))}`;
    const node = make("button", { type: "button", class: "quiet add", "aria-label": `${entry.label}: ${label}` }, label);
    node.addEventListener("click", () => {
      const sum = (numberOf(input.value) || 0) + add;
      input.value = typed(Math.min(Math.max(sum, entry.low), entry.high));
      texts.set(entry.name, input.value);
      clearProblem();
    });
    return node;
  }

  function chosen(entry) {
    const group = `${entry.name}_unit`;
    return make("div", { class: "choices", role: "radiogroup", "aria-label": `${entry.label}: unit` },
      ...entry.choices.map(([key, label]) => {
        const radio = make("input", { type: "radio", name: group, value: key, id: `${group}-${key}` });
        radio.checked = key === unitOf(entry);
        radio.addEventListener("change", () => units.set(entry.name, key));
        return make("span", { class: "choice" }, radio, make("label", { for: radio.id }, label));
      }));
  }

  function problemOf(entry) {
    const text = textOf(entry);
    if (!text.trim()) return entry.required ? `${entry.label}: nothing entered` : "";
    const number = numberOf(text);
    const range = `${typed(entry.low)} to ${typed(entry.high)}${entry.unit ? ` ${entry.unit}` : ""}`.replace("-", "−");
    if (Number.isNaN(number)) return `${entry.label}: “${text}” is no number from ${range}`;
    if (isOwnUnit(entry) && (number < entry.low || number > entry.high)) return `${entry.label}: ${text} is outside ${range}`;
    return "";
  }

  function clearProblem() {
    if (said.hidden) return;
    show(said, false);
    resized();
    for (const node of place.querySelectorAll("[aria-invalid]")) node.removeAttribute("aria-invalid");
  }

  /** Say what is wrong until something is typed. */
  function refuse(words) {
    write(said, words);
    show(said, true);
    resized();
    said.scrollIntoView({ block: "nearest" });
  }

  /** The values as a tap carries them, or null after saying what is wrong. */
  function read() {
    clearProblem();
    const body = {};
    for (const entry of entries) {
      const problem = problemOf(entry);
      if (problem) {
        refuse(problem);
        inputOf(entry).setAttribute("aria-invalid", "true");
        inputOf(entry).focus();
        return null;
      }
      if (!textOf(entry).trim()) continue;
      body[entry.name] = numberOf(textOf(entry));
      if (entry.choices) body[`${entry.name}_unit`] = unitOf(entry);
    }
    return body;
  }

  /** The number a frozen table is read with, and its unit; null where none was typed. */
  function tableRead() {
    const [entry] = entries;
    const number = entry?.choices ? numberOf(textOf(entry)) : NaN;
    return Number.isNaN(number) ? null : { number, unit: unitOf(entry) };
  }

  /** A digit typed while no box has the focus goes to the first one. */
  function type(key) {
    const input = entries.length ? inputOf(entries[0]) : null;
    if (!input) return false;
    input.value = (texts.get(entries[0].name) ?? "") + key;
    texts.set(entries[0].name, input.value);
    input.focus();
    clearProblem();
    return true;
  }

  /** Whether somebody is in the middle of a number. */
  function typing() {
    const active = document.activeElement;
    return place.contains(active) && active.type === "text" && Boolean(texts.get(active.name));
  }

  return { draw, read, refuse, tableRead, type, typing, clear: () => texts.clear() };
}
