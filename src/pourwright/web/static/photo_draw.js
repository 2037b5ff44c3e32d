// What was tapped, drawn on the photo, and what was read, in words.

// Marks are black and white at once, so that they show on every color.
export function marks(pen, taps, patches, radius, thick) {
  const both = (path) => {
    for (const [color, width] of [["#000", thick * 2.4], ["#fff", thick]]) {
      pen.strokeStyle = color; pen.lineWidth = width; pen.beginPath(); path(); pen.stroke();
    }
  };
  const plus = (x, y, arm) => { pen.moveTo(x - arm, y); pen.lineTo(x + arm, y); pen.moveTo(x, y - arm); pen.lineTo(x, y + arm); };
  for (const patch of patches) both(() => plus(patch.x_px, patch.y_px, 2 * thick));
  taps.forEach((list, kind) => list.forEach((p, i) => {
    both(() => { if (kind) pen.arc(p.x, p.y, radius, 0, 7); plus(p.x, p.y, kind ? thick * 2 : thick * 6); });
    pen.font = `bold ${thick * 11}px sans-serif`; pen.lineWidth = thick * 2; pen.strokeStyle = "#000"; pen.fillStyle = "#fff";
    const words = ["T", "C", "P"][kind] + (i + 1);
    pen.strokeText(words, p.x + thick * 7, p.y - thick * 5); pen.fillText(words, p.x + thick * 7, p.y - thick * 5);
  }));
}

function line(parent, tag, words, className = "") {
  const node = document.createElement(tag);
  node.textContent = words; node.className = className;
  parent.append(node);
  return node;
}

const sentence = (words) => `${words[0].toUpperCase()}${words.slice(1)}.`;
const band = (name, it) => `${name} ${it.typical.toFixed(1)} (${it.low.toFixed(1)} to ${it.high.toFixed(1)})`;

export function told(box, answer, looks) {
  line(box, "h2", sentence(answer.verdict));
  line(box, "p", `Patches left out of the fit were missed by ${answer.left_out_median_de00.toFixed(1)} in the middle, nine in ten by less than ${answer.left_out_90_de00.toFixed(1)} (CIEDE2000).`);
  const list = line(box, "ul", "", "spots");
  for (const spot of answer.spots) card(line(list, "li", ""), spot, looks);
  for (const words of answer.notes) line(box, "p", sentence(words), "faint");
}

function card(item, spot, looks) {
  const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  for (const [k, v] of Object.entries({ viewBox: "0 0 96 32", preserveAspectRatio: "none", role: "img", "aria-label": spot.name })) svg.setAttribute(k, v);
  const rect = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  for (const [k, v] of Object.entries({ width: 96, height: 32, fill: spot.srgb_hex })) rect.setAttribute(k, v);
  svg.append(rect); item.append(svg);
  line(item, "h3", spot.name);
  const lab = spot.lab;
  line(item, "p", [band("L*", lab.lightness), band("a*", lab.a), band("b*", lab.b)].join(", "));
  line(item, "p", `Nine in ten within ${spot.miss_de00.toFixed(1)} (CIEDE2000).`);
  if (!spot.in_gamut) line(item, "p", "Stronger than a screen can show; the picture is the nearest it can.", "faint");
  if (spot.clipped_share > 0) line(item, "p", `${(100 * spot.clipped_share).toFixed(0)} % of it is clipped.`, "faint");
  if (spot.glare_share > 0) line(item, "p", `${(100 * spot.glare_share).toFixed(0)} % of it mirrors a lamp and was left out.`, "faint");
  for (const words of spot.notes) line(item, "p", sentence(words), "faint");
  const [l, a, b] = [lab.lightness, lab.a, lab.b].map((v) => v.typical.toFixed(2));
  const row = line(item, "div", "", "row");
  if (looks.childElementCount) {
    const label = line(row, "label", "", "num");
    line(label, "span", "Look");
    const select = label.appendChild(document.createElement("select"));
    select.append(looks.cloneNode(true));
    const target = line(row, "a", "Use as target", "button quiet");
    const aim = () => { target.href = `/looks/${select.value}/color?target_l=${l}&target_a=${a}&target_b=${b}`; };
    select.addEventListener("change", aim); aim();
  }
  const entry = line(row, "a", "Enter as puck reading (new tab)", "button quiet");
  entry.href = `/pucks/reading?l=${l}&a=${a}&b=${b}&instrument=photo`;
  entry.target = "_blank";
}
