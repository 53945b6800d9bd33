// Bits of vectors told as stretches: `wp[4]`, `wp[3]`, `wp[2]` one after the other are `wp[4:2]`. The same bits of many
// words one after the other are one stretch too: `bit 0 of words[0] to words[7]`.

export interface Stretch {
  readonly name: string;
  readonly bits: number;
}

/** In the order given; only neighbors in that order are joined. */
export function stretchesOf(names: readonly string[]): readonly Stretch[] {
  const found: Run[] = [];
  for (const name of names) {
    const [vector, index] = partsOf(name);
    const open = found[found.length - 1];
    if (open !== undefined && open.vector === vector && continues(open, index)) {
      open.last = index;
      open.bits++;
    } else found.push({ vector, first: index, last: index, bits: 1 });
  }
  return rowsOf(found).map(nameOfRow);
}

/** Neighboring bits of one vector; both null where it is a name without an index. */
interface Run {
  readonly vector: string;
  first: number | null;
  last: number | null;
  bits: number;
}

/** Runs of the same bits in words that follow each other. */
function rowsOf(runs: readonly Run[]): readonly (readonly Run[])[] {
  const rows: Run[][] = [];
  for (const run of runs) {
    const row = rows[rows.length - 1];
    if (row !== undefined && goesOn(row, run)) row.push(run);
    else rows.push([run]);
  }
  return rows.flatMap((row) => (row.length < fewestWords ? row.map((run) => [run]) : [row]));
}

const fewestWords = 3;

function goesOn(row: readonly Run[], run: Run): boolean {
  const before = row[row.length - 1];
  const [[base, word], [next, nextWord]] = [partsOf(before.vector), partsOf(run.vector)];
  if (run.first === null || word === null || nextWord === null || base !== next) return false;
  if (run.first !== before.first || run.last !== before.last) return false;
  const step = nextWord - word;
  return Math.abs(step) === 1 && (row.length === 1 || step === word - (partsOf(row[row.length - 2].vector)[1] ?? word));
}

function nameOfRow(row: readonly Run[]): Stretch {
  const [{ first, last, vector }] = row;
  const bits = row.reduce((sum, run) => sum + run.bits, 0);
  if (first === null) return { name: vector, bits };
  const index = first === last ? `${first}` : `${first}:${last}`;
  if (row.length === 1) return { name: `${vector}[${index}]`, bits };
  const which = first === last ? 'bit' : 'bits';
  return { name: `${which} ${index} of ${vector} to ${row[row.length - 1].vector}`, bits };
}

/** For lists whose order says nothing: a run upwards is told from its highest bit, as vectors mostly are declared. */
export function stretchNames(names: readonly string[]): readonly string[] {
  return stretchesOf(names).map(({ name }) => name.replace(/\[(-?\d+):(-?\d+)\]$/, highestFirst));
}

function highestFirst(whole: string, first: string, last: string): string {
  return Number(first) < Number(last) ? `[${last}:${first}]` : whole;
}

function continues(
  { first, last, bits }: { readonly first: number | null; readonly last: number | null; readonly bits: number },
  index: number | null,
): boolean {
  if (first === null || last === null || index === null) return false;
  const step = index - last;
  return Math.abs(step) === 1 && (bits === 1 || step === Math.sign(last - first));
}

function partsOf(name: string): readonly [vector: string, index: number | null] {
  const match = /^(.*)\[(-?\d+)\]$/.exec(name);
  return match === null ? [name, null] : [match[1], Number(match[2])];
}
