// What a look is drawn from: its optics, as the forms beside it would have them, its solid, its tables.
import { answered } from "../answer.js";
import { fetched as solidAt } from "../solid/mesh.js";
import { parsed, table } from "./optics.js";
import { standing } from "./sight.js";

/** `read()` gives `{mesh, optics, tables}`; what was fetched once is kept. */
export function source(address, forms) {
  const kept = new Map();
  const once = (where, read) => {
    if (!kept.has(where)) kept.set(where, read().catch((error) => { kept.delete(where); throw error; }));
    return kept.get(where);
  };

  async function read({ changed = false } = {}) {
    const optics = parsed(await bytes(address, changed ? { method: "POST", body: told(forms) } : {}));
    const { solid, up, tables, plateCount } = optics.numbers;
    const wanted = Object.entries(tables).filter(([name]) => name === "face" || plateCount);
    const [mesh, ...found] = await Promise.all([
      once(`${solid} ${up}`, async () => standing(await solidAt(solid), up)),
      ...wanted.map(([, where]) => once(where, async () => table(await bytes(where)))),
    ]);
    return { mesh, optics, tables: Object.fromEntries(wanted.map(([name], i) => [name, found[i]])) };
  }

  return { read };
}

async function bytes(address, how) {
  return (await answered(address, how)).arrayBuffer();
}

/** What all forms hold together; names that begin with @ belong to the first alone. */
function told(forms) {
  const body = new URLSearchParams();
  forms.forEach((form, i) => {
    for (const [name, value] of new FormData(form)) if (!i || !name.startsWith("@")) body.set(name, value);
  });
  return body;
}
