// The device's own voice reads each new step out, where there is one and it is wanted.
import { keep, recall } from "./memory.js";

export function voice() {
  const able = "speechSynthesis" in window && typeof SpeechSynthesisUtterance === "function";
  let wanted = able && recall("speak") === true;
  let last = "";

  function say(key, text) {
    if (key === last) return;
    last = key;
    speak(text);
  }

  function speak(text) {
    if (!able) return;
    speechSynthesis.cancel();
    if (wanted && text) speechSynthesis.speak(Object.assign(new SpeechSynthesisUtterance(text), { lang: "en-US" }));
  }

  function toggle(text) {
    wanted = able && !wanted;
    keep("speak", wanted);
    speak(text);
  }

  return { say, toggle, able, wanted: () => wanted };
}
