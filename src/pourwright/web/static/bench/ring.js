// Alarms. The sound is put on the audio clock ahead of time, where a sleepy timer cannot delay it.
import { keep, recall } from "./memory.js";

const RING_S = 8;
const BEEPS = [[0, 880], [0.22, 880], [0.44, 1318]];
const BEEP_S = 0.16;
const LOUD = 0.5;
const LATE_MS = 3000;
const SAME_MS = 5000;
const DRIFT_MS = 100;
const MOST_AHEAD = 4;
const MOST_KEPT = 20;
const SHAKE = [400, 150, 400, 150, 800];

/** `due({key, words})` when an alarm falls due, with or without sound. */
export function ringer({ due, changed }) {
  let context = null;
  let wanted = recall("sound") ?? true;
  let plan = new Map();
  const rung = new Map();
  const rang = [];

  const can = () => typeof AudioContext === "function";
  const sounds = () => wanted && context?.state === "running";

  /** Within a press: browsers let a page sound only then. */
  function unlock() {
    if (!wanted || !can()) return;
    if (!context) {
      context = new AudioContext();
      context.addEventListener("statechange", () => {
        replan();
        changed();
      });
    }
    if (context.state !== "running") context.resume();
  }

  function toggle() {
    wanted = !wanted;
    keep("sound", wanted);
    if (wanted) unlock();
    else context?.suspend();
    replan();
    changed();
  }

  function note(moment) {
    rang.push(moment);
    rang.splice(0, rang.length - MOST_KEPT);
  }

  const zero = () => Date.now() - context.currentTime * 1000;

  function schedule(alarm) {
    const start = Math.max(context.currentTime + 0.01, (alarm.at - zero()) / 1000);
    const tone = new OscillatorNode(context, { type: "square" });
    const loud = new GainNode(context, { gain: 0 });
    for (let second = 0; second < RING_S; second += 1) {
      for (const [after, pitch] of BEEPS) {
        const from = start + second + after;
        tone.frequency.setValueAtTime(pitch, from);
        loud.gain.setValueAtTime(LOUD, from);
        loud.gain.setValueAtTime(0, from + BEEP_S);
      }
    }
    tone.connect(loud).connect(context.destination);
    const mark = new ConstantSourceNode(context, { offset: 0 });
    mark.connect(context.destination);
    mark.onended = () => {
      note(Date.now());
      if (!alarm.rung) fall(alarm);
    };
    tone.onended = () => loud.disconnect();
    for (const [node, long] of [[tone, RING_S], [mark, 0.01]]) {
      node.start(start);
      node.stop(start + long);
    }
    alarm.sound = { tone, mark, loud, zero: zero() };
  }

  function hush(alarm) {
    if (!alarm.sound) return;
    const { tone, mark, loud } = alarm.sound;
    mark.onended = null;
    for (const node of [tone, mark, loud]) node.disconnect();
    tone.stop();
    mark.stop();
    alarm.sound = null;
  }

  function replan() {
    const soonest = [...plan.values()].filter((alarm) => !alarm.rung).sort((a, b) => a.at - b.at);
    for (const alarm of soonest) hush(alarm);
    if (sounds()) soonest.slice(0, MOST_AHEAD).forEach(schedule);
  }

  function again(alarm) {
    const last = rung.get(alarm.key);
    return last !== undefined && Math.abs(alarm.at - last) < SAME_MS;
  }

  /** The alarms there are now, `{key, at, words}` with `at` in this device's milliseconds. */
  function set(alarms) {
    const next = new Map();
    let moved = false;
    for (const alarm of alarms) {
      const old = plan.get(alarm.key);
      const stale = !old && alarm.at < Date.now() - LATE_MS;
      if (again(alarm) || stale) continue;
      const same = old && Math.abs(old.at - alarm.at) < DRIFT_MS;
      moved ||= !same;
      next.set(alarm.key, same ? old : { ...alarm, sound: old?.sound ?? null });
    }
    for (const [key, old] of plan) {
      if (next.has(key) || old.rung) continue;
      hush(old);
    }
    const ringing = [...plan].filter(([key, old]) => old.rung && old.sound && !next.has(key));
    plan = new Map([...ringing, ...next]);
    if (moved) replan();
  }

  function fall(alarm) {
    if (!alarm.sound) note(Date.now());
    alarm.rung = true;
    rung.set(alarm.key, alarm.at);
    if (rung.size > MOST_KEPT) rung.delete(rung.keys().next().value);
    if (navigator.userActivation?.hasBeenActive) navigator.vibrate?.(SHAKE);
    due(alarm);
  }

  function tick() {
    const moment = Date.now();
    const drifted = (alarm) => alarm.sound && !alarm.rung && Math.abs(zero() - alarm.sound.zero) > DRIFT_MS;
    if (context && [...plan.values()].some(drifted)) replan();
    for (const [key, alarm] of plan) {
      if (!alarm.rung && alarm.at <= moment) fall(alarm);
      if (alarm.rung && moment - alarm.at > RING_S * 1000) plan.delete(key);
    }
  }

  /** A press stops what rings now. */
  function silence() {
    for (const [key, alarm] of plan) {
      if (!alarm.rung) continue;
      hush(alarm);
      plan.delete(key);
      navigator.vibrate?.(0);
    }
  }

  function words() {
    if (!can()) return "This browser has no sound: watch the clocks";
    if (!wanted) return "Sound off: clocks run out silently";
    return sounds() ? "Sound on. A phone's ring switch can still mute it" : "Sound waits for your first press";
  }

  return { unlock, toggle, set, tick, silence, words, wanted: () => wanted, blocked: () => can() && wanted && !sounds(), rang: () => [...rang] };
}
