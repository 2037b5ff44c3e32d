// Figures as a person writes and reads them.

/** Seconds left as "1:15"; a clock that ran out counts up as "+0:02". */
export function clockWords(left) {
  const whole = Math.ceil(left);
  const over = whole < 0 || left < 0;
  const size = over ? Math.floor(-left) : whole;
  const text = `${Math.floor(size / 60)}:${String(size % 60).padStart(2, "0")}`;
  return over ? `+${text}` : text;
}

/** A typed number, with a decimal point or comma; NaN if it is none. */
export function numberOf(text) {
  const plain = text.trim().replace(",", ".").replace("−", "-");
  return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : NaN;
}

/** A number as it is typed, without the noise of binary fractions. */
export function typed(number) {
  return String(Math.round(number * 1e6) / 1e6);
}

/** Width of a figure in em of the typeface: its digits are all alike. */
export function widthEm(text) {
  let em = 0;
  for (const letter of text) em += ":.,".includes(letter) ? 0.34 : letter === " " ? 0.25 : 0.61;
  return em;
}

/** Words up to the first full stop that ends a sentence, and whether any follow. */
export function firstSentence(lines) {
  const all = lines.join(" ");
  const found = all.match(/^.*?[.!?](?=\s+[A-Z])/);
  return { first: found ? found[0] : all, more: Boolean(found) };
}
