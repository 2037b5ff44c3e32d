// While a code waits to be scanned: count its time down, and load the page anew once it is over.
const waits = document.querySelector("[data-waits]");
const LOOK_MS = 2000;

if (waits) {
  const clock = waits.querySelector("[data-clock]");
  const paired = Number(waits.dataset.paired);
  let end = Date.now() + Number(waits.dataset.left) * 1000;

  const say = () => {
    const left = Math.max(Math.ceil((end - Date.now()) / 1000), 0);
    clock.textContent = `${Math.floor(left / 60)}:${String(left % 60).padStart(2, "0")}`;
  };

  const look = async () => {
    try {
      const answer = await fetch("/phones/code", { headers: { accept: "application/json" } });
      const now = await answer.json();
      if (now.left_s === 0 || now.paired !== paired) {
        location.reload();
        return;
      }
      end = Date.now() + now.left_s * 1000;
    } catch {
      // The laptop's server rests; the next look may find it again.
    }
    setTimeout(look, LOOK_MS);
  };

  setInterval(say, 500);
  setTimeout(look, LOOK_MS);
}
