// Everything that is not the step: notes, sound, screen, link, taps that wait, ways out.
import { at, make, show, sign, write } from "./make.js";
import { closeOver, openOver } from "./over.js";
import { padButton } from "./pads.js";

const ID = "more-over";

/** `facts()` lists [name, words]; `outbox` and `pour` are asked when it opens. */
export function more({ pour, outbox, facts, press, short, ring, voice, say }) {
  const read = new Set();
  let listed = "";

  at("sound").addEventListener("click", () => ring.toggle());
  at("speak").addEventListener("click", () => {
    voice.toggle(say());
    refresh();
  });
  at(ID).querySelector("[data-close]").addEventListener("click", () => closeOver(ID));
  at("more").addEventListener("click", open);

  function open() {
    const { menu, leave, held } = pour.state();
    const notes = pour.words();
    for (const words of notes) read.add(words);
    at("more-told").replaceChildren(...(notes.length ? [make("h3", {}, "Notes"), ...notes.map(note)] : []));
    at("more-held").replaceChildren(...(held.length ? [make("h3", {}, "Hold to"), make("div", { class: "over-rows" }, ...held.map(heldPad))] : []));
    at("more-doors").replaceChildren(...[leave, ...menu].map(({ words, address }) => make("li", {}, make("a", { href: address }, words))));
    openOver(ID);
    refresh();
  }

  const note = (words) => make("p", { class: "noted" }, sign("caution"), make("span", {}, words));

  function heldPad(pad) {
    return padButton({ ...pad, main: false, hold: true }, { press: (pressed) => press(pressed) && closeOver(ID), short });
  }

  function kept(taps, trouble) {
    const wanted = JSON.stringify([taps.map((tap) => tap.id), trouble]);
    if (wanted === listed) return;
    listed = wanted;
    const actions = trouble ? [make("button", { type: "button", on: { click: outbox.again } }, "Send again")] : [];
    if (trouble?.whole && taps.length) actions.push(padButton({ label: "Throw these taps away", hold: true }, { press: outbox.discard, short }));
    at("more-kept").replaceChildren(...(taps.length ? [
      make("h3", {}, `Kept on this device, not yet at the laptop: ${taps.length}`),
      make("ul", {}, ...taps.map((tap) => make("li", {}, `${tap.kind.replaceAll("_", " ")}, ${new Date(tap.at).toLocaleTimeString("en-US")}`))),
      make("p", {}, trouble?.words ?? ""),
      make("div", { class: "over-rows" }, ...actions)] : []));
  }

  /** Called on every change; does nothing while it is closed. */
  function refresh() {
    write(at("sound"), ring.wanted() ? "Sound on" : "Sound off");
    at("sound").setAttribute("aria-pressed", String(ring.wanted()));
    write(at("speak"), voice.wanted() ? "Speak: on" : "Speak: off");
    at("speak").setAttribute("aria-pressed", String(voice.wanted()));
    show(at("speak"), voice.able);
    if (!at(ID).open) return;
    kept(outbox.waiting(), outbox.trouble());
    const lines = facts();
    const place = at("how-it-is");
    if (place.dataset.shown === JSON.stringify(lines)) return;
    place.dataset.shown = JSON.stringify(lines);
    place.replaceChildren(...lines.map(([name, words]) => make("div", {}, make("dt", {}, name), make("dd", {}, words))));
  }

  const unread = () => pour.words().filter((words) => !read.has(words));

  return { open, refresh, unread };
}
