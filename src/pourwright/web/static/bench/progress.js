// Where the pour stands: the laptop's last State, and what this device's own taps make of it
// until the laptop has them.
import { now, offsetMs, stamp } from "./laptop_time.js";
import { keep } from "./memory.js";
import { rowFor } from "./phase.js";

const ANSWER_MS = 4000;
const MOST_CLOCKS = 4;
const MOST_WORDS = 8;

const newer = (a, b) => a.newest > b.newest || (a.newest === b.newest && a.now >= b.now);

/** Of a State that came with the page and one kept on this device, the later one. */
export function latest(sent, kept) {
  return kept && kept.now > sent.now ? kept : sent;
}

export function progress(address, first, kept) {
  let base = begun(first, null);
  let mine = kept?.mine ?? null;
  let covers = kept?.covers ?? 0;
  let stray = [];

  function save() {
    keep(`pour:${address}`, { state: base, mine, covers, offset: offsetMs() });
  }

  // A screen without a beginning begins when it is first shown.
  function begun(state, before) {
    if (state.screen.began) return state;
    const same = before && before.screen.key === state.screen.key;
    return { ...state, screen: { ...state.screen, began: same ? before.screen.began : state.now } };
  }

  const plain = () => ({ screen: base.screen, wait: null, unforeseen: false, started: [], ended: [], undo: base.undo });

  function go(it, key) {
    const ahead = base.ahead[key];
    return { ...it, wait: null, screen: ahead ? { ...ahead, began: ahead.began ?? stamp() } : it.screen };
  }

  function accept(state) {
    if (!newer(state, base)) return false;
    base = begun(state, base);
    save();
    return true;
  }

  /** Hand the screen back to the laptop once it has all of this device's taps. */
  function settle(empty) {
    if (!mine || !empty || base.newest < covers) return;
    mine = null;
    save();
  }

  function answered({ kept: list, newest }) {
    covers = Math.max(covers, newest);
    const words = list.filter((one) => !one.kept && one.words).map((one) => one.words);
    stray = [...stray, ...words].slice(-MOST_WORDS);
    save();
  }

  function tapped(pad, tap, { read = null, linked = true, stay = false } = {}) {
    const from = mine ?? plain();
    const next = { ...from, before: { ...from, before: null, undo: null }, wait: null };
    next.undo = { id: tap.id, words: pad.label, at: stamp() };
    if (pad.ends) turnOff(next, pad.ends);
    if (pad.starts) turnOn(next, pad.starts);
    const row = pad.next_by && read ? rowFor(pad.next_by, read)?.next ?? null : null;
    mine = stay && !pad.next ? next : moved(next, pad, row, linked);
    save();
  }

  // Where a press leads is foreseen by its pad, by the table, or known to the laptop alone.
  function moved(it, pad, row, linked) {
    if (base.ahead[pad.next]) return go(it, pad.next);
    const found = base.ahead[row] ? row : null;
    if (found && !linked) return go(it, found);
    return { ...it, wait: waitFor(found, pad.label), unforeseen: it.unforeseen || !found };
  }

  const waitFor = (next, label) => ({ until: Date.now() + ANSWER_MS, next, label });

  function turnOff(it, key) {
    it.started = it.started.filter((one) => one.key !== key);
    it.ended = [...it.ended, key];
  }

  function turnOn(it, { key, name, over, for_s }) {
    turnOff(it, key);
    it.ended = it.ended.filter((one) => one !== key);
    it.started = [...it.started, { key, name, over, until: new Date(now() + for_s * 1000).toISOString() }];
  }

  function takenBack(id) {
    const own = mine?.before && mine.undo?.id === id;
    mine = own ? { ...mine.before, undo: null } : { ...(mine ?? plain()), undo: null, before: null, wait: waitFor(null, ""), unforeseen: true };
    save();
  }

  /** Give up waiting when the laptop does not answer in time, or cannot. */
  function tick(linked) {
    const wait = mine?.wait;
    if (!wait) return;
    const late = Date.now() > wait.until;
    if (wait.next && (late || !linked)) mine = go(mine, wait.next);
    else if (late && !wait.late) mine = { ...mine, wait: { ...wait, late: true } };
    else return;
    save();
  }

  function clocks() {
    const { started, ended } = mine ?? plain();
    const own = new Set([...ended, ...started.map((one) => one.key)]);
    return [...base.clocks.filter((one) => !own.has(one.key)), ...started]
      .sort((a, b) => (a.until < b.until ? -1 : 1))
      .slice(0, MOST_CLOCKS);
  }

  const words = () => [...new Set([...base.said, ...stray])];

  return {
    accept, settle, answered, tapped, takenBack, tick, clocks, words, save,
    state: () => base,
    screen: () => mine?.screen ?? base.screen,
    wait: () => mine?.wait ?? null,
    /** Whether a step was taken that only the laptop knows the end of. */
    unforeseen: () => mine?.unforeseen ?? false,
    undo: () => (mine ? mine.undo : base.undo),
  };
}
