// What this device keeps over a reload. A browser that keeps nothing still works until then.
const spare = new Map();
let keeps = true;

export function recall(key) {
  if (spare.has(key)) return spare.get(key);
  try {
    return JSON.parse(localStorage.getItem(key));
  } catch {
    return null;
  }
}

export function keep(key, value) {
  try {
    localStorage.setItem(key, JSON.stringify(value));
    spare.delete(key);
    keeps = true;
  } catch {
    spare.set(key, value);
    keeps = false;
  }
}

export function forget(key) {
  spare.delete(key);
  try {
    localStorage.removeItem(key);
  } catch {
    keeps = false;
  }
}

/** Whether the last thing kept would outlive a reload. */
export const outlives = () => keeps;

/** Forget pours of other sheets that have nothing left to send. */
export function sweep(address) {
  try {
    for (const key of Object.keys(localStorage)) {
      const other = key.startsWith("pour:") && key !== `pour:${address}`;
      const taps = recall(key.replace("pour:", "taps:"));
      if (other && !taps?.length) forget(key);
    }
  } catch {
    keeps = false;
  }
}
