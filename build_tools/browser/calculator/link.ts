// link.ts: writes and reads the part of an address that carries a calculator's inputs. Knows no form and no engine.

/** What a link holds: `#memory.mix:have_size=8&add_size=16&made=1-3f9a2c1b`. */
export interface Carried {
  name: string;
  inputs: Record<string, string>;
  version?: string;
  digest?: string;
  ticks?: string;
}

const MADE = "made"; // no calculator has an input of this name
const DONE = "done"; // nor of this: the steps of a plan that are ticked off (ticks.ts)

export function write({ name, inputs, version, digest, ticks }: Carried): string {
  const pairs = new URLSearchParams(inputs);
  if (version && digest) pairs.set(MADE, `${version}-${digest}`);
  if (ticks) pairs.set(DONE, ticks);
  return `#${name}:${pairs}`;
}

/** undefined where the fragment is none of ours (a heading's, for instance). */
export function read(fragment: string): Carried | undefined {
  const match = /^#([a-z][a-z0-9_]*\.[a-z][a-z0-9_]*):(.*)$/s.exec(fragment);
  if (!match) return undefined;
  const inputs = Object.create(null) as Carried["inputs"]; // a link may name anything, "__proto__" too
  const carried: Carried = { name: match[1]!, inputs };
  for (const [key, value] of new URLSearchParams(match[2])) {
    if (key === DONE) {
      carried.ticks = value;
      continue;
    }
    if (key !== MADE) {
      carried.inputs[key] = value;
      continue;
    }
    const cut = `${value}-`.indexOf("-");
    [carried.version, carried.digest] = [value.slice(0, cut), value.slice(cut + 1)];
  }
  return carried;
}
