// Taps wait here until the laptop lists them. Each keeps its id, so that a repeat is stored once.
import { stamp } from "./laptop_time.js";
import { keep, recall } from "./memory.js";

const BACKOFF_MS = [500, 1000, 2000, 4000];
const ANSWER_MS = 4000;
const MOST_AT_ONCE = 50;

function freshId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** `answered({kept, newest})` is told each answer; `changed()` whenever the queue or its trouble does. */
export function outbox(address, { answered, changed }) {
  const place = `taps:${address}`;
  let sending = false;
  let fails = 0;
  let timer = null;
  let trouble = null;

  const waiting = () => recall(place) ?? [];

  function add(kind, body) {
    const tap = { id: freshId(), kind, at: new Date().toISOString(), laptop_at: stamp(), body };
    keep(place, [...waiting(), tap]);
    if (trouble?.whole) trouble = null;
    changed();
    send();
    return tap;
  }

  function later(wait) {
    clearTimeout(timer);
    timer = setTimeout(send, wait);
  }

  async function send() {
    clearTimeout(timer);
    const taps = waiting().slice(0, MOST_AT_ONCE);
    if (sending || !taps.length || trouble?.whole) return;
    sending = true;
    let again = null;
    try {
      again = settled(taps, await post(taps));
    } catch {
      again = retry();
    }
    sending = false;
    changed();
    if (again !== null) later(again);
  }

  async function post(taps) {
    const answer = await fetch(`${address}/taps`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ sent_at: new Date().toISOString(), taps }),
      keepalive: true,
      signal: AbortSignal.timeout(ANSWER_MS),
    });
    return { status: answer.status, told: answer.status < 500 ? await answer.json() : null };
  }

  function retry() {
    fails += 1;
    return BACKOFF_MS[Math.min(fails, BACKOFF_MS.length) - 1];
  }

  function settled(taps, { status, told }) {
    if (status >= 500) return retry();
    if (status !== 200) {
      const unpaired = status === 401 || status === 403;
      trouble = { unpaired, whole: !unpaired, words: told.message ?? "" };
      return unpaired ? BACKOFF_MS.at(-1) : null;
    }
    trouble = null;
    const listed = new Set(told.kept.map((one) => one.id));
    keep(place, waiting().filter((tap) => !listed.has(tap.id)));
    answered(told);
    if (!waiting().length) {
      fails = 0;
      return null;
    }
    if (!taps.some((tap) => listed.has(tap.id))) return retry();
    fails = 0;
    return 0;
  }

  function again() {
    trouble = null;
    fails = 0;
    send();
  }

  function discard() {
    keep(place, []);
    trouble = null;
    changed();
  }

  return { add, send, again, discard, waiting, trouble: () => trouble };
}
