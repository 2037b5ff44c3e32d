// Ask the laptop for the State, one question at a time.
const ANSWER_MS = 4000;

/** `given(state, quick)` for each answer; `refused(status)` when this device may not ask. */
export function asker(address, { given, refused }) {
  let asking = false;
  let again = false;

  async function ask() {
    if (asking) {
      again = true;
      return;
    }
    asking = true;
    again = false;
    const began = performance.now();
    try {
      const answer = await fetch(`${address}/state`, { signal: AbortSignal.timeout(ANSWER_MS) });
      if (answer.ok) given(await answer.json(), performance.now() - began < 1000);
      else refused(answer.status);
    } catch {
      // Silence is the link's to notice; the next beat asks again.
    }
    asking = false;
    if (again) ask();
  }

  return ask;
}
