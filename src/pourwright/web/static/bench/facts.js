// How link, screen, sound, voice, reload and clock stand, in words.
import { LINK_WORDS } from "./bar.js";
import { offsetMs } from "./laptop_time.js";

function voiceWords({ able, wanted }) {
  if (!able) return "This device has no voice";
  return wanted() ? "Steps are spoken" : "Steps are not spoken";
}

function clockWords() {
  const off = Math.round(Math.abs(offsetMs()) / 1000);
  return off < 2 ? "This device and the laptop agree" : `This device is off by ${off} s; the laptop's time counts`;
}

export function facts({ link, screen, sound, voice, reload }) {
  return [
    ["Link", LINK_WORDS[link]], ["Screen", screen], ["Sound", sound],
    ["Voice", voiceWords(voice)], ["Reload", reload], ["Clock", clockWords()],
  ];
}
