// Taps are kept in pixels of the upright photo; the server reads the colors and says how sure.
import { marks, told } from "/static/photo_draw.js";

const at = (id) => document.getElementById(id);
const canvas = at("tap");
const pen = canvas.getContext("2d");
const glass = at("loupe").getContext("2d");
// A request may carry 8 MB, and base64 makes four bytes of three.
const MOST_BYTES = 5_500_000;
const MOST_PIXELS = 40_000_000;
const MOST_SHOWN = 2400;
const stages = [
  { most: 4, least: 4, words: (n) => `Tap corner ${n + 1} of 4 of the target: the outer corners of its patches.` },
  { most: 12, least: 0, words: (n) => (at("target-kind").value === "gray strip" ? `Tap the bare white card in three places or more around the pucks (${n} so far), then Next.` : `Tap the bare white card in a few places (${n} so far), or press Next.`) },
  { most: 12, least: 1, words: (n) => `Tap the middle of each puck (${n} so far), then read the colors.` },
];
let picture = null;
let data = "";
let scale = 1;
let stage = 0;
let taps = [[], [], []];
let patches = [];
let cross = { x: 0, y: 0 };
let keys = false;

const radius = () => Math.max(2, Number(at("radius").value) || 20);
// The last corner can still be moved once the next taps are asked for.
const last = () => taps[stage].at(-1) ?? (stage === 1 ? taps[0].at(-1) : undefined);

function draw() {
  if (!picture) return;
  pen.setTransform(1, 0, 0, 1, 0, 0);
  pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
  pen.setTransform(scale, 0, 0, scale, 0, 0);
  marks(pen, taps, patches, radius(), canvas.width / scale / 300);
  const here = keys ? cross : last() ?? cross;
  if (keys) marks(pen, [[cross], [], []], [], radius(), canvas.width / scale / 200);
  magnified(here);
}

function magnified(here) {
  const side = Math.max(3 * radius(), picture.width / 14);
  const size = at("loupe").width;
  glass.fillStyle = "#777";
  glass.fillRect(0, 0, size, size);
  glass.imageSmoothingEnabled = false;
  glass.drawImage(picture, here.x - side / 2, here.y - side / 2, side, side, 0, 0, size, size);
  for (const [color, width] of [["#000", 4], ["#fff", 1.5]]) {
    glass.strokeStyle = color; glass.lineWidth = width; glass.beginPath();
    glass.moveTo(0, size / 2); glass.lineTo(size, size / 2); glass.moveTo(size / 2, 0); glass.lineTo(size / 2, size);
    if (stage) { glass.moveTo(size / 2 + radius() / side * size, size / 2); glass.arc(size / 2, size / 2, radius() / side * size, 0, 7); }
    glass.stroke();
  }
}

function show() {
  const count = taps[stage].length;
  at("step").textContent = stages[stage].words(count);
  at("undo").disabled = !taps.some((t) => t.length);
  at("next").disabled = stage === 2 || count < stages[stage].least;
  at("read").disabled = taps[0].length < 4 || !taps[2].length;
  draw();
}

function tap(x, y) {
  if (taps[stage].length >= stages[stage].most) return;
  taps[stage].push({ x, y }); patches = [];
  if (stage === 0 && taps[0].length === 4) stage = 1;
  show();
}

function wrong(words) {
  at("wrong").textContent = words; at("wrong").hidden = !words;
}

// Codes are sent untouched where they fit: a browser's own conversion would clip strong colors.
async function encoded(file, bitmap) {
  const fits = ["image/jpeg", "image/png"].includes(file.type) && file.size <= MOST_BYTES && bitmap.width * bitmap.height <= MOST_PIXELS;
  if (fits) {
    const reader = new FileReader();
    await new Promise((done, failed) => { reader.onload = done; reader.onerror = failed; reader.readAsDataURL(file); });
    return { bitmap, data: reader.result.split(",")[1] };
  }
  const small = document.createElement("canvas");
  const by = Math.min(1, MOST_SHOWN / Math.max(bitmap.width, bitmap.height));
  small.width = Math.round(bitmap.width * by); small.height = Math.round(bitmap.height * by);
  small.getContext("2d").drawImage(bitmap, 0, 0, small.width, small.height);
  return { bitmap: small, data: small.toDataURL("image/jpeg", 0.95).split(",")[1] };
}

async function opened(event) {
  const file = event.target.files[0];
  if (!file) return;
  wrong(""); at("found").textContent = "";
  try {
    const bitmap = await createImageBitmap(file, { imageOrientation: "from-image", colorSpaceConversion: "none" });
    ({ bitmap: picture, data } = await encoded(file, bitmap));
  } catch {
    picture = null; at("work").hidden = true;
    wrong("This file is no picture that the browser can open: take a JPEG or a PNG.");
    return;
  }
  scale = Math.min(1, MOST_SHOWN / Math.max(picture.width, picture.height));
  canvas.width = Math.round(picture.width * scale); canvas.height = Math.round(picture.height * scale);
  stage = 0; taps = [[], [], []]; patches = []; keys = false; cross = { x: picture.width / 2, y: picture.height / 2 };
  at("radius").value = String(Math.max(3, Math.round(picture.width / 60)));
  at("work").hidden = false; show();
}
for (const id of ["photo", "camera"]) at(id).addEventListener("change", opened);

canvas.addEventListener("click", (event) => {
  const box = canvas.getBoundingClientRect();
  keys = false;
  tap((event.clientX - box.left) / box.width * picture.width, (event.clientY - box.top) / box.height * picture.height);
});
canvas.addEventListener("keydown", (event) => {
  const step = picture.width / (event.shiftKey ? 1000 : 100);
  const move = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step] }[event.key];
  if (move) {
    keys = true;
    cross = { x: Math.min(Math.max(cross.x + move[0], 0), picture.width - 1), y: Math.min(Math.max(cross.y + move[1], 0), picture.height - 1) };
    event.preventDefault(); draw();
  }
  if (event.key === "Enter" || event.key === " ") { event.preventDefault(); tap(cross.x, cross.y); }
});
for (const button of document.querySelectorAll("[data-move]")) {
  button.addEventListener("click", () => {
    const moved = last();
    if (!moved) return;
    const [right, down] = button.dataset.move.split(",").map(Number);
    const step = Math.max(0.5, picture.width / 800);
    moved.x = Math.min(Math.max(moved.x + right * step, 0), picture.width - 1);
    moved.y = Math.min(Math.max(moved.y + down * step, 0), picture.height - 1);
    keys = false; draw();
  });
}
at("undo").addEventListener("click", () => {
  while (stage && !taps[stage].length) stage -= 1;
  taps[stage].pop(); patches = []; show();
});
at("next").addEventListener("click", () => { stage = Math.min(stage + 1, 2); show(); });
at("radius").addEventListener("input", draw);
at("target-kind").addEventListener("change", (event) => {
  at("shares-box").hidden = event.target.value !== "gray strip";
  if (picture) show();
});

function named(field) {
  const found = /^(corners|spots|card)\[(\d+)\]/.exec(field ?? "");
  const names = { corners: "Corner", spots: "Puck", card: "Card place" };
  return found ? `${names[found[1]]} ${Number(found[2]) + 1}` : { corners: "Corners", photo: "Photo", "target.shares": "Strip" }[field] ?? field ?? "";
}

at("read").addEventListener("click", async (event) => {
  const kind = at("target-kind").value;
  const target = kind === "gray strip" ? { kind, shares: at("shares").value.split(/[ ;]+|,\s+/).filter(Boolean).map((s) => Number(s.replace(",", "."))) } : { kind };
  const place = (p) => ({ x_px: p.x, y_px: p.y });
  const disk = (p) => ({ ...place(p), radius_px: radius() });
  const body = { photo: data, target, corners: taps[0].map(place), card: taps[1].map(disk), spots: taps[2].map((p, i) => ({ name: `Puck ${i + 1}`, ...disk(p) })) };
  const words = event.target.textContent;
  event.target.disabled = true; event.target.textContent = "Reading…"; wrong(""); at("found").textContent = "";
  try {
    const answer = await fetch("/api/calc/color.photo", { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(body) });
    const found = await answer.json();
    if (answer.ok) {
      patches = found.patches;
      told(at("found"), found, at("looks").content);
    } else wrong(`Not read. ${found.why ? `${named(found.field)} ${found.why}` : found.message ?? found.error}.`);
  } catch {
    wrong("The bench did not answer. Is it still running? Your taps are still here.");
  } finally { event.target.textContent = words; show(); }
  (at("wrong").hidden ? at("found") : at("wrong")).scrollIntoView({ block: "nearest" });
});
