// The bench page: show where the pour stands, count time, ring, keep taps until the laptop has them.
import { asker } from "./ask.js";
import { awake } from "./awake.js";
import { drawBar, drawStrip, waitWords } from "./bar.js";
import { chips } from "./chips.js";
import { brief } from "./brief.js";
import { boxes } from "./entries.js";
import { facts } from "./facts.js";
import { fit } from "./fit.js";
import { gate } from "./gate.js";
import { keys } from "./keys.js";
import { assume, heard, here, now } from "./laptop_time.js";
import { lineView } from "./line.js";
import { link as openLink } from "./link.js";
import { at, make, write } from "./make.js";
import { recall, sweep } from "./memory.js";
import { more } from "./more.js";
import { offline } from "./offline.js";
import { outbox } from "./outbox.js";
import { tell } from "./over.js";
import { alarmsOf, phaseAt, stepAt } from "./phase.js";
import { latest, progress } from "./progress.js";
import { ringer } from "./ring.js";
import { stepScreen } from "./screen.js";
import { stage } from "./stage.js";
import { troubles } from "./trouble.js";
import { undoPlace } from "./undo.js";
import { voice } from "./voice.js";

const TICK_MS = 200;
const RINGING_MS = 6000;
const NEEDS_LAPTOP = "That step needs the laptop: one before it was not foreseen.";

const { address } = at("bench").dataset;
const kept = recall(`pour:${address}`);
const sent = JSON.parse(at("state").textContent);
const first = latest(sent, kept?.state);
assume(first === sent ? Date.parse(sent.now) - Date.now() : kept.offset);
sweep(address);

const pour = progress(address, first, kept);
const swallowed = brief(at("brief"));
const presses = gate(swallowed);
const speaker = voice();
const ring = ringer({ due, changed: draw });
const screenLock = awake(draw);
const entries = boxes(at("entries"), at("refused"), fit);
const acts = { press, short: tooShort };
const view = stepScreen(entries, acts, (lines) => tell("Why", ...lines.map((line) => make("p", {}, line))));
const step = stage({ view, entries, presses, speaker });
const line = lineView(fit);
const drawChips = chips(line.open);
const drawUndo = undoPlace(takeBack, tooShort);
const choose = troubles(stamp);
let drawnChips = "";
let pressing = false;
let refused = 0;
let looked = performance.now();
let ringing = 0;

const box = outbox(address, {
  answered(told) {
    refused = 0;
    pour.answered(told);
    ask();
  },
  changed: draw,
});
const ask = asker(address, {
  given(state, quick) {
    refused = 0;
    if (quick) heard(state.now);
    looked = performance.now();
    pour.accept(state);
    draw();
  },
  refused(status) {
    refused = status;
    draw();
  },
});
const wire = openLink(address, {
  beat({ newest, now: moment }) {
    heard(moment);
    if (newest > pour.state().newest) ask();
  },
  changed(state) {
    if (state === "linked") {
      box.send();
      ask();
    }
    draw();
  },
});
const keptPage = offline(address, draw);
const sheet = more({ pour, outbox: box, facts: howItIs, press: held, short: tooShort, ring, voice: speaker, say: () => phase().say });

function phase() {
  return phaseAt(pour.screen(), now()).phase;
}

function linkState() {
  const trouble = box.trouble();
  if (refused === 401 || refused === 403 || trouble?.unpaired) return "unpaired";
  return trouble?.whole ? "refused" : wire.state();
}

/** Whether an answer is on its way; out of reach only the pad that was pressed waits. */
function waits(pad = null) {
  const wait = pour.wait();
  if (!wait || wait.late) return false;
  return ["linked", "reaching"].includes(linkState()) || wait.label === pad?.label;
}

function howItIs() {
  return facts({ screen: screenLock.words(), sound: ring.words(), voice: speaker, reload: keptPage(), link: linkState() });
}

function press(pad) {
  if (waits(pad) || !presses.lets(pad.main ? "main" : "side")) return false;
  if (pad.starts && pour.unforeseen()) {
    swallowed(NEEDS_LAPTOP);
    return false;
  }
  return tap(pad, { stay: false });
}

function held(pad) {
  return presses.lets("fixed") && tap(pad, { stay: false });
}

function stamp(pad) {
  return presses.lets("fixed") && tap(pad, { stay: true });
}

function tap(pad, { stay }) {
  const values = pad.entry ? entries.read() : {};
  if (!values) return false;
  const read = entries.tableRead();
  pressing = true;
  const made = box.add(pad.kind, { ...pad.body, ...values });
  pour.tapped(pad, made, { read, linked: linkState() !== "out", stay });
  if (!stay) entries.clear();
  draw();
  pressing = false;
  return true;
}

function takeBack(undo) {
  if (!presses.lets("fixed")) return;
  pressing = true;
  box.add("taken_back", { event: undo.id });
  pour.takenBack(undo.id);
  draw();
  pressing = false;
}

function tooShort() {
  write(at("aloud"), "Hold it for one second");
  entries.refuse("Held too briefly: hold it for one second");
}

function due({ words, key }) {
  write(at("alarm"), words);
  if (key.startsWith("phase")) ringing = performance.now() + RINGING_MS;
}

function draw() {
  pour.settle(!box.waiting().length);
  const state = pour.state();
  const screen = pour.screen();
  const clocks = pour.clocks().map((one) => ({ ...one, at: here(one.until) }));
  const link = linkState();
  const found = stepAt(screen, state, now());
  const needs = pour.unforeseen() && !waits() && found.phase.pads.some((pad) => pad.starts);
  let changed = step.draw(screen, found, { code: state.code, pressing, waits: waits() });
  ring.set(alarmsOf(screen, clocks));
  const words = needs ? NEEDS_LAPTOP : waitWords(pour.wait(), link);
  changed = at("wait").textContent !== words || changed;
  write(at("wait"), words);
  at("bench").classList.toggle("is-waiting", waits());
  at("bench").classList.toggle("is-unforeseen", needs);
  drawBar({ state, about: screen.about, link, waiting: box.waiting(), screen: screenLock.short() });
  changed = drawStrip(sheet.unread(), ring.blocked() && clocks.length > 0) || changed;
  changed = drawUndo(pour.undo()) || changed;
  line.draw(state, link === "out" || link === "unpaired");
  const chipKey = drawChips(clocks, line.chip());
  changed = chipKey !== drawnChips || changed;
  drawnChips = chipKey;
  sheet.refresh();
  runStep();
  if (changed) fit();
}

function runStep() {
  if (!Number.isNaN(step.until())) view.runClock((step.until() - now()) / 1000);
  at("now").classList.toggle("is-ringing", performance.now() < ringing);
}

function tick() {
  wire.tick();
  ring.tick();
  pour.tick(linkState() !== "out");
  const again = pour.state().look_again_s;
  const rests = !document.hidden && !entries.typing() && !box.waiting().length;
  if (again !== null && rests && performance.now() - looked > again * 1000) {
    looked = performance.now();
    ask();
  }
  draw();
}

function firstTouch() {
  ring.unlock();
  ring.silence();
  screenLock.ask();
  ringing = 0;
}

keys({ mainPad: view.mainPad, type: entries.type });
at("trouble").addEventListener("click", () => choose(pour.state().wrong));
at("strip").addEventListener("click", () => (sheet.unread().length ? sheet.open() : ring.unlock()));
for (const name of ["pointerdown", "keydown", "click"]) addEventListener(name, firstTouch, true);
addEventListener("resize", fit);
addEventListener("pageshow", (event) => {
  if (event.persisted) ask();
});
document.addEventListener("visibilitychange", () => {
  if (!document.hidden) draw();
});
document.fonts.ready.then(fit);

at("bench").hidden = false;
draw();
box.send();
setInterval(tick, TICK_MS);

window.bench = Object.freeze({
  state: () => structuredClone(pour.state()),
  outbox: () => box.waiting(),
  link: linkState,
  get rang() {
    return ring.rang();
  },
});
