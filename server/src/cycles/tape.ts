// A period worked out without code: its terms one after the other, in plain numbers of 32 bits. Serves where no compiler
// is handed in; several times as fast as stepping through events. Null where more than 32 bits of a term are needed.

import { entryBytes, header, inputCount, type Layout, Stop } from './layout';
import type { CompiledModule } from './compiled-module';
import type { HomeLimb } from './emit';
import type { Period } from './period';
import { Kind, type Term, type Terms } from './term-kinds';

export function tapeOf(
  period: Period,
  layout: Layout,
  homes: readonly HomeLimb[],
): (CompiledModule & { readonly work: number }) | null {
  const { looks, next, state, terms } = period;
  const roots = [
    ...next.flatMap(({ a, b }) => [...a, ...b]),
    ...looks.flatMap((all) => all.flatMap(({ word }) => [word.a[0], word.b[0]])),
    period.doubt,
  ];
  const needs = neededBits(terms, roots);
  const isWide = (kind: number, term: number) =>
    needs[term] > 32 || (needs[term] > 0 && kind === Kind.shiftRightSigned);
  const isNarrow = ({ width }: { readonly width: number }) => width <= 32;
  if (terms.kinds.some(isWide) || !state.every(isNarrow)) return null;
  if (!looks.flat().every(({ word }) => isNarrow(word))) return null;
  const steps = terms.kinds.flatMap((kind, term) =>
    needs[term] > 0 && kind !== Kind.constant && kind !== Kind.input ? [term as Term] : [],
  );
  const values = new Int32Array(terms.kinds.length);
  for (let term = 0; term < values.length; term++) {
    values[term] = Number(BigInt.asIntN(32, terms.valueOf(term as Term) ?? 0n));
  }
  const buffer = new ArrayBuffer(layout.pages * 65_536);
  const words = new Int32Array(buffer);
  const inputs = new Int32Array(inputCount(state));
  const inputTerms = terms.kinds.flatMap((kind, term) => (kind === Kind.input ? [term] : []));
  const moves = state.flatMap(({ input, isOpen }, index) => {
    const { a, b } = next[index];
    return (isOpen ? [...a, ...b] : a).map((term, limb) => ({ term, input: input + limb }));
  });
  const tape = createTape(terms, steps, values);

  function run(asked: number): void {
    for (let index = 0; index < inputs.length; index++) inputs[index] = words[layout.state / 4 + 2 * index];
    let taken = 0;
    let stop: number = Stop.asked;
    let logEnd = layout.log;
    while (taken < asked) {
      for (const term of inputTerms) values[term] = inputs[terms.x[term]];
      tape();
      if (values[period.doubt] !== 0) {
        stop = Stop.doubt;
        break;
      }
      for (const [instant, all] of looks.entries()) {
        for (const { watched, word } of all) logEnd = look(watched, word.a[0], word.b[0], instant, taken, logEnd);
      }
      for (const { input, term } of moves) inputs[input] = values[term];
      taken += 1;
      if (homes.length > 0 && isHome()) {
        stop = Stop.home;
        break;
      }
      if (logEnd > layout.logUntil - 2 * layout.entries * entryBytes) break;
    }
    for (let index = 0; index < inputs.length; index++) words[layout.state / 4 + 2 * index] = inputs[index];
    words[header.taken / 4] = taken;
    words[header.logEnd / 4] = logEnd;
    words[header.stop / 4] = stop;
  }

  function look(watched: number, a: Term, b: Term, instant: number, taken: number, logEnd: number): number {
    const kept = layout.watched / 4 + 4 * watched;
    if (words[kept] === values[a] && words[kept + 2] === values[b]) return logEnd;
    words[kept] = values[a];
    words[kept + 2] = values[b];
    const at = logEnd / 4;
    words.set([taken, watched + instant * 65_536, values[a], 0, values[b], 0], at);
    return logEnd + entryBytes;
  }

  function isHome(): boolean {
    return homes.every(
      ({ input, mask }, index) =>
        ((inputs[input] ^ words[layout.home / 4 + 2 * index]) & Number(BigInt.asIntN(32, mask))) === 0,
    );
  }

  return { memory: { buffer }, run, work: steps.length + 1 };
}

/** How many low bits of each term anybody needs: sums and gates need no more of their operands. */
function neededBits(terms: Terms, roots: readonly Term[]): Uint8Array {
  const { kinds, sizes, x, y, z } = terms;
  const needs = new Uint8Array(kinds.length);
  const need = (term: number, bits: number) => {
    if (term >= 0) needs[term] = Math.max(needs[term], Math.min(bits, sizes[term] || 1));
  };
  for (const root of roots) need(root, 64);
  for (let term = kinds.length - 1; term >= 0; term--) {
    const bits = needs[term];
    const kind = kinds[term];
    if (bits === 0 || kind === Kind.constant || kind === Kind.input) continue;
    const constant = y[term] >= 0 ? terms.valueOf(y[term] as Term) : null;
    if (kind === Kind.look) need(y[term], 64);
    else if (kind === Kind.and && constant !== null) need(x[term], Math.min(bits, constant.toString(2).length));
    else if (kind === Kind.shiftLeft && constant !== null) need(x[term], Math.max(1, bits - Number(constant)));
    else if (truncating.has(kind)) for (const operand of [x[term], y[term]]) need(operand, bits);
    else if (kind === Kind.choose) {
      need(x[term], 64);
      for (const operand of [y[term], z[term]]) need(operand, bits);
    } else if (kind === Kind.shiftLeft) {
      need(x[term], bits);
      need(y[term], 64);
    } else for (const operand of [x[term], y[term]]) need(operand, 64);
  }
  return needs;
}

const truncating: ReadonlySet<number> = new Set([Kind.and, Kind.or, Kind.xor, Kind.add, Kind.subtract, Kind.multiply]);

/** A `switch` that is a table. */
function createTape(terms: Terms, steps: readonly Term[], values: Int32Array): () => void {
  const kinds = Uint8Array.from(steps, (term) => terms.kinds[term]);
  const targets = Uint32Array.from(steps);
  const column = (from: readonly number[]) => Uint32Array.from(steps, (term) => Math.max(0, from[term]));
  const [xs, ys, zs] = [column(terms.x), column(terms.y), column(terms.z)];
  const tables = terms.tables.map((table) => Int32Array.from(table, (entry) => Number(BigInt.asIntN(32, entry))));
  return () => {
    for (let step = 0; step < kinds.length; step++) {
      const x = values[xs[step]];
      const y = values[ys[step]];
      let value = 0;
      switch (kinds[step]) {
        case Kind.and:
          value = x & y;
          break;
        case Kind.or:
          value = x | y;
          break;
        case Kind.xor:
          value = x ^ y;
          break;
        case Kind.add:
          value = (x + y) | 0;
          break;
        case Kind.subtract:
          value = (x - y) | 0;
          break;
        case Kind.multiply:
          value = Math.imul(x, y);
          break;
        case Kind.divide:
          value = (x >>> 0) / (y >>> 0);
          break;
        case Kind.remainder:
          value = (x >>> 0) % (y >>> 0);
          break;
        case Kind.shiftLeft:
          value = y > 31 ? 0 : x << y;
          break;
        case Kind.shiftRight:
          value = y > 31 ? 0 : x >>> y;
          break;
        case Kind.isZero:
          value = x === 0 ? 1 : 0;
          break;
        case Kind.equal:
          value = x === y ? 1 : 0;
          break;
        case Kind.different:
          value = x === y ? 0 : 1;
          break;
        case Kind.less:
          value = x >>> 0 < y >>> 0 ? 1 : 0;
          break;
        case Kind.choose:
          value = x !== 0 ? y : values[zs[step]];
          break;
        case Kind.countOnes:
          value = onesIn(x);
          break;
        default:
          value = tables[xs[step]][y];
      }
      values[targets[step]] = value;
    }
  };
}

function onesIn(limb: number): number {
  let count = 0;
  for (let rest = limb; rest !== 0; rest &= rest - 1) count += 1;
  return count;
}
