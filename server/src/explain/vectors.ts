// Bits of vectors told as stretches: `wp[4]`, `wp[3]`, `wp[2]` one after the other are `wp[4:2]`.

export interface Stretch {
  readonly name: string;
  readonly bits: number;
}

/** In the order given; only neighbors in that order are joined. */
export function stretchesOf(names: readonly string[]): readonly Stretch[] {
  const found: { vector: string; first: number | null; last: number | null; bits: number }[] = [];
  for (const name of names) {
    const [vector, index] = partsOf(name);
    const open = found[found.length - 1];
    if (open !== undefined && open.vector === vector && continues(open, index)) {
      open.last = index;
      open.bits++;
    } else found.push({ vector, first: index, last: index, bits: 1 });
  }
  return found.map(({ vector, first, last, bits }) => {
    if (first === null) return { name: vector, bits };
    return { name: first === last ? `${vector}[${first}]` : `${vector}[${first}:${last}]`, bits };
  });
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
