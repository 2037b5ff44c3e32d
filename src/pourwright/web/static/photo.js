// Taps are kept in pixels of the photo; the server reads the colors and says how sure they are.
const at = (id) => document.getElementById(id);
const canvas = at("tap");
const pen = canvas.getContext("2d");
const stages = [
  { key: "corners", most: 4, words: (n) => `Tap corner ${n + 1} of 4 of the target, the outer corners of its patches.` },
  { key: "card", most: 12, words: (n) => `Tap the bare white card around the pucks, at least three places (${n} so far), then Next.` },
  { key: "spots", most: 12, words: (n) => `Tap the middle of each puck (${n} so far), then read the colors.` },
];
let picture = null;
let data = "";
let stage = 0;
let taps = [[], [], []];
let cross = { x: 0, y: 0 };

const radius = () => Math.max(3, Number(at("radius").value) || 20);
const say = () => { at("step").textContent = picture ? stages[stage].words(taps[stage].length) : "Pick a photo first."; };

function draw() {
  if (!picture) return;
  pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
  const thick = Math.max(2, canvas.width / 300);
  taps.forEach((list, kind) => list.forEach((p, i) => {
    for (const [color, width] of [["#000", thick * 2], ["#fff", thick]]) {
      pen.strokeStyle = color; pen.lineWidth = width; pen.beginPath();
      if (kind) pen.arc(p.x, p.y, radius(), 0, 7);
      else { pen.moveTo(p.x - 5 * thick, p.y); pen.lineTo(p.x + 5 * thick, p.y); pen.moveTo(p.x, p.y - 5 * thick); pen.lineTo(p.x, p.y + 5 * thick); }
      pen.stroke();
    }
    pen.font = `${thick * 10}px sans-serif`; pen.lineWidth = thick * 1.5; pen.strokeStyle = "#000"; pen.fillStyle = "#fff";
    const words = "TCP"[kind] + (i + 1);
    pen.strokeText(words, p.x + radius(), p.y - thick * 3); pen.fillText(words, p.x + radius(), p.y - thick * 3);
  }));
  if (document.activeElement === canvas) { pen.strokeStyle = "#fff"; pen.lineWidth = thick; pen.strokeRect(cross.x - 8 * thick, cross.y - 8 * thick, 16 * thick, 16 * thick); }
}

function tap(x, y) {
  const here = stages[stage];
  if (taps[stage].length >= here.most) return;
  taps[stage].push({ x, y });
  if (stage === 0 && taps[0].length === 4) stage = 1;
  say(); draw();
}

at("photo").addEventListener("change", async (event) => {
  const file = event.target.files[0];
  if (!file) return;
  const bitmap = await createImageBitmap(file, { imageOrientation: "from-image" });
  const scale = Math.min(1, 2400 / Math.max(bitmap.width, bitmap.height));
  canvas.width = Math.round(bitmap.width * scale); canvas.height = Math.round(bitmap.height * scale);
  picture = bitmap; stage = 0; taps = [[], [], []]; cross = { x: canvas.width / 2, y: canvas.height / 2 };
  at("radius").value = String(Math.max(5, Math.round(canvas.width / 60)));
  pen.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  data = canvas.toDataURL("image/jpeg", 0.95).split(",")[1];
  at("tap-box").hidden = false; at("found").textContent = ""; say(); draw();
});
canvas.addEventListener("pointerdown", (event) => {
  const box = canvas.getBoundingClientRect();
  tap((event.clientX - box.left) / box.width * canvas.width, (event.clientY - box.top) / box.height * canvas.height);
});
canvas.addEventListener("keydown", (event) => {
  const step = event.shiftKey ? 1 : canvas.width / 100;
  const move = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step] }[event.key];
  if (move) { cross = { x: cross.x + move[0], y: cross.y + move[1] }; event.preventDefault(); draw(); }
  if (event.key === "Enter" || event.key === " ") { tap(cross.x, cross.y); event.preventDefault(); }
});
canvas.addEventListener("focus", draw);
at("undo").addEventListener("click", () => {
  if (!taps[stage].length && stage) stage -= 1;
  taps[stage].pop(); say(); draw();
});
at("next").addEventListener("click", () => { if (picture && stage < 2 && taps[0].length === 4) { stage += 1; say(); } });
at("radius").addEventListener("input", draw);
at("target-kind").addEventListener("change", (event) => { at("shares-box").hidden = event.target.value !== "gray strip"; });

function line(parent, tag, words, className = "") {
  const node = document.createElement(tag);
  node.textContent = words; node.className = className;
  parent.append(node);
  return node;
}

function told(answer) {
  const box = at("found");
  box.textContent = "";
  line(box, "h2", answer.verdict);
  const list = line(box, "ul", "", "cards");
  for (const spot of answer.spots) {
    const card = line(list, "li", "", "card");
    const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
    svg.setAttribute("viewBox", "0 0 96 48"); svg.setAttribute("class", "swatch swatch-wide");
    const rect = document.createElementNS("http://www.w3.org/2000/svg", "rect");
    for (const [k, v] of Object.entries({ width: 96, height: 48, fill: spot.srgb_hex })) rect.setAttribute(k, v);
    svg.append(rect); card.append(svg);
    line(card, "h3", spot.name);
    const [l, a, b] = ["lightness", "a", "b"].map((k) => spot.lab[k]);
    line(card, "p", `L* ${l.typical.toFixed(1)} (${l.low.toFixed(1)} to ${l.high.toFixed(1)}), a* ${a.typical.toFixed(1)} (${a.low.toFixed(1)} to ${a.high.toFixed(1)}), b* ${b.typical.toFixed(1)} (${b.low.toFixed(1)} to ${b.high.toFixed(1)})`);
    line(card, "p", `Nine in ten within ${spot.miss_de00.toFixed(1)} (CIEDE2000).`);
    for (const words of spot.notes) line(card, "p", words, "faint");
    for (const look of at("looks").options) {
      const link = line(card, "a", `Target for ${look.textContent}`, "button quiet");
      link.href = `/looks/${look.value}/color?target_l=${l.typical.toFixed(2)}&target_a=${a.typical.toFixed(2)}&target_b=${b.typical.toFixed(2)}`;
    }
  }
  for (const words of answer.notes) line(box, "p", words, "faint");
}

at("read").addEventListener("click", async (event) => {
  const box = at("found");
  if (!picture || taps[0].length < 4 || !taps[2].length) { box.textContent = ""; line(box, "p", "Pick a photo, tap the four corners of the target and at least one puck.", "wrong"); return; }
  const kind = at("target-kind").value;
  const target = kind === "gray strip" ? { kind, shares: at("shares").value.split(/[ ,;]+/).filter(Boolean).map(Number) } : { kind };
  const place = (p) => ({ x_px: p.x, y_px: p.y });
  const body = { photo: data, target, corners: taps[0].map(place), card: taps[1].map((p) => ({ ...place(p), radius_px: radius() })), spots: taps[2].map((p, i) => ({ name: `puck ${i + 1}`, ...place(p), radius_px: radius() })) };
  event.target.disabled = true;
  try {
    const answer = await fetch("/api/calc/color.photo", { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(body) });
    const found = await answer.json();
    if (answer.ok) told(found);
    else { box.textContent = ""; line(box, "p", found.why ? `${found.field ?? ""} ${found.why}` : found.message ?? found.error, "wrong"); }
  } finally { event.target.disabled = false; }
});
