// The top line and the strip under it: which batch and cup, whether the laptop is there, news.
import { at, make, show, sign, write } from "./make.js";
import { outlives } from "./memory.js";

export const LINK_WORDS = {
  linked: "Linked",
  reaching: "Reaching the laptop …",
  out: "Laptop out of reach. Clocks go on",
  unpaired: "This device is not paired: pair it again at the laptop",
  refused: "The laptop refused the taps: see More",
};

const LONG_MS = 5000;

/** How many taps this device still has: at once while out of reach, else once it lasts. */
function keptWords(taps, link) {
  const count = taps.length === 1 ? "1 tap" : `${taps.length} taps`;
  if (!taps.length) return "";
  if (link !== "linked") return `${count} kept here`;
  return Date.now() - Date.parse(taps[0].at) > LONG_MS ? `${count} to send` : "";
}

export function drawBar({ state, about, link, waiting, screen }) {
  write(at("about"), about || state.title);
  write(at("batch"), about ? state.title : state.code);
  const kept = keptWords(waiting, link);
  const parts = [LINK_WORDS[link], kept, link === "linked" && !kept ? screen : ""];
  if (!outlives()) parts.push("this browser keeps nothing: do not reload");
  write(at("link-words"), parts.filter(Boolean).join(" · "));
  at("link").className = `link is-${link}`;
}

/** News to read, or that sound waits for a press; gives whether the strip changed its size. */
export function drawStrip(notes, soundWaits) {
  const strip = at("strip");
  const count = notes.length > 1 ? `${notes.length} notes: ` : "";
  const words = notes.length ? `${count}${notes.at(-1)}` : soundWaits ? "Sound is off until you press: press here" : "";
  if (strip.dataset.words === words) return false;
  strip.dataset.words = words;
  strip.classList.toggle("is-news", notes.length > 0);
  strip.replaceChildren(...(words ? [sign("caution"), make("span", {}, words)] : []));
  show(strip, Boolean(words));
  write(at("more"), notes.length ? `More (${notes.length})` : "More");
  at("more").classList.toggle("is-news", notes.length > 0);
  return true;
}

/** What a pressed pad waits for. */
export function waitWords(wait, link) {
  if (!wait) return "";
  if (link === "out" || link === "unpaired") return "Kept on this phone. Waiting for the laptop";
  if (wait.next) return "Asking the laptop …";
  return wait.late ? "No answer yet. The tap is kept" : "Sent. Waiting for the laptop";
}
