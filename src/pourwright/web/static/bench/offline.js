// A worker keeps the page itself, so that a reload without the laptop still opens the pour.
const NONE = "This link cannot keep the page: do not reload while the laptop is out of reach";

export function offline(address, changed) {
  let words = "Keeping the page for a reload …";

  function turn(next) {
    words = next;
    changed();
  }

  const loaded = () => performance.getEntriesByType("resource").map((entry) => new URL(entry.name))
    .filter((url) => url.origin === location.origin && url.pathname.startsWith("/static/"))
    .map((url) => url.pathname);

  async function start() {
    if (!window.isSecureContext || !navigator.serviceWorker) {
      turn(NONE);
      return;
    }
    try {
      await navigator.serviceWorker.register("/bench-worker.js", { scope: "/" });
      const { active } = await navigator.serviceWorker.ready;
      const answer = new MessageChannel();
      answer.port1.onmessage = () => {
        answer.port1.close();
        turn("The page opens again without the laptop");
      };
      active.postMessage({ keep: [address, ...new Set(loaded())] }, [answer.port2]);
    } catch {
      turn(NONE);
    }
  }

  if (document.readyState === "complete") start();
  else addEventListener("load", start, { once: true });
  return () => words;
}
