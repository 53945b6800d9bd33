// Code of one period, in a loop: terms that are used more than once become locals, all others stand where they are
// used. The state is in locals throughout and goes back to memory at the end of a call. A period that meets a doubt is
// not begun: the state is then the one before it.

import { entryBytes, header, inputCount, type Layout, layoutOf, Stop } from './layout';
import type { Look, Period } from './period';
import type { CycleQuestion } from './plan';
import { Kind, type Term, type Terms } from './term-kinds';
import { type ByteWriter, createBytes, moduleBytes } from './wasm-bytes';
import { limbsOf } from './words';
import type { StatePart } from './world';

export interface Emitted {
  readonly bytes: Uint8Array;
  readonly layout: Layout;
  /** Terms worked out in one period. */
  readonly work: number;
  /** By home limb: the input it compares. */
  readonly homes: readonly HomeLimb[];
}

export interface HomeLimb {
  readonly input: number;
  readonly mask: bigint;
  /** Where it stands in the planes of all positions: its first limb of 32 bits. */
  readonly plane: 'a' | 'b';
  readonly from: number;
  /** Whether a second limb belongs to it. */
  readonly isLong: boolean;
}

export function emitPeriod(period: Period, question: CycleQuestion): Emitted {
  const { terms } = period;
  const homes = homeLimbs(question, period.state);
  const entries = period.looks.reduce((sum, looks) => sum + looks.length, 0);
  const layout = layoutOf(terms, period.state, homes.length, question.watched, entries);
  const code = createBytes();
  const locals = assignLocals(period, question);
  const emitter: Emitter = { code, terms, layout, localOf: locals.localOf };
  emitFunction(emitter, period, question, { ...locals, homes, entries });
  const bytes = moduleBytes({ pages: layout.pages, locals: [2, locals.wide], code: code.bytes() });
  return { bytes, layout, homes, work: locals.work };
}

/** The bits that must be at home, by input: each limb of 64 bits has two of 32. */
function homeLimbs({ home, plan }: CycleQuestion, state: readonly StatePart[]): readonly HomeLimb[] {
  if (home === undefined) return [];
  const masks = new Map(home.map(({ limb, mask }) => [limb, BigInt(mask >>> 0)]));
  return state.flatMap(({ input, isOpen, position, width }) => {
    const limbs = limbsOf(width);
    const maskAt = (limb: number) => {
      const at = plan.offset[position] + 2 * limb;
      const high = 64 * limb + 32 < width ? (masks.get(at + 1) ?? 0n) : 0n;
      return (masks.get(at) ?? 0n) | (high << 32n);
    };
    const planes = isOpen ? (['a', 'b'] as const) : (['a'] as const);
    return planes
      .flatMap((plane, index) =>
        Array.from({ length: limbs }, (_, limb) => ({
          input: input + index * limbs + limb,
          mask: maskAt(limb),
          plane,
          from: plan.offset[position] + 2 * limb,
          isLong: 64 * limb + 32 < width,
        })),
      )
      .filter(({ mask }) => mask !== 0n);
  });
}

/** Locals: 0 periods asked for, 1 periods taken, 2 end of the log; then inputs, watched planes, shared terms. */
const asked = 0;
const taken = 1;
const logEnd = 2;
const firstInput = 3;

interface Locals {
  /** By term: its local, 0 where it has none. */
  readonly localOf: Int32Array;
  readonly firstWatched: number;
  readonly wide: number;
  readonly work: number;
  /** Terms with locals, operands first. */
  readonly shared: readonly Term[];
}

/** Where terms stand within each other more deeply than this one of them becomes a local. */
const deepest = 40;

function assignLocals({ doubt, looks, next, state, terms }: Period, { watched }: CycleQuestion): Locals {
  const count = terms.kinds.length;
  const uses = new Uint32Array(count);
  const use = (term: number, times: number) => {
    uses[term] = Math.min(2, uses[term] + times);
  };
  for (const { a, b } of next) for (const limb of [...a, ...b]) use(limb, 1);
  for (const { word } of looks.flat()) for (const limb of [...word.a, ...word.b]) use(limb, 2);
  use(doubt, 1);
  for (let term = count - 1; term >= 0; term--) {
    if (uses[term] === 0) continue;
    for (const operand of operandsOf(terms, term as Term)) use(operand, 1);
  }
  const localOf = new Int32Array(count);
  const shared: Term[] = [];
  const depth = new Uint8Array(count);
  let work = 1;
  const firstWatched = firstInput + inputCount(state);
  const firstShared = firstWatched + 2 * watched.length;
  for (let term = 0; term < count; term++) {
    const kind = terms.kinds[term];
    if (kind === Kind.input) localOf[term] = firstInput + terms.x[term];
    if (uses[term] === 0 || kind === Kind.input || kind === Kind.constant) continue;
    work += 1;
    for (const operand of operandsOf(terms, term as Term)) depth[term] = Math.max(depth[term], depth[operand] + 1);
    if (uses[term] === 1 && depth[term] < deepest) continue;
    depth[term] = 0;
    localOf[term] = firstShared + shared.push(term as Term) - 1;
  }
  return { localOf, firstWatched, shared, wide: firstShared + shared.length - firstInput, work };
}

function operandsOf({ kinds, x, y, z }: Terms, term: Term): readonly Term[] {
  const kind = kinds[term];
  if (kind === Kind.constant || kind === Kind.input) return [];
  if (kind === Kind.look) return [y[term] as Term];
  return [x[term], y[term], z[term]].filter((operand) => operand >= 0) as Term[];
}

interface Emitter {
  readonly code: ByteWriter;
  readonly terms: Terms;
  readonly layout: Layout;
  readonly localOf: Int32Array;
}

interface Parts extends Locals {
  readonly homes: readonly HomeLimb[];
  /** Most entries of the log in one period. */
  readonly entries: number;
}

function emitFunction(emitter: Emitter, period: Period, question: CycleQuestion, parts: Parts): void {
  const { code, layout } = emitter;
  const inputs = inputCount(period.state);
  const kept = inputs + 2 * question.watched.length;
  const addressOf = (index: number) =>
    index < inputs ? layout.state + 8 * index : layout.watched + 8 * (index - inputs);
  for (let index = 0; index < kept; index++) {
    constant32(code, 0);
    memory(code, 0x29, addressOf(index));
    setLocal(code, firstInput + index);
  }
  constant32(code, layout.log);
  setLocal(code, logEnd);
  constant32(code, 0);
  constant32(code, Stop.asked);
  memory(code, 0x36, header.stop, 2);
  code.byte(0x02, 0x40, 0x03, 0x40);
  for (const term of parts.shared) {
    emitFresh(emitter, term);
    setLocal(code, emitter.localOf[term]);
  }
  if (period.doubt !== emitter.terms.zero) {
    emitCondition(emitter, period.doubt);
    stopIf(code, Stop.doubt);
  }
  for (const [instant, looks] of period.looks.entries()) {
    for (const look of looks) emitLook(emitter, period, look, instant, parts);
  }
  emitNext(emitter, period);
  getLocal(code, taken);
  constant32(code, 1);
  code.byte(0x6a);
  setLocal(code, taken);
  emitHome(emitter, parts.homes);
  getLocal(code, taken);
  getLocal(code, asked);
  code.byte(0x49, 0x0d, 0, 0x0b, 0x0b);
  for (let index = 0; index < kept; index++) {
    constant32(code, 0);
    getLocal(code, firstInput + index);
    memory(code, 0x37, addressOf(index));
  }
  storeHeader(code, header.taken, taken);
  storeHeader(code, header.logEnd, logEnd);
}

/** Leaves the loop, with its reason, while the number on the stack is not 0. */
function stopIf(code: ByteWriter, reason: number): void {
  code.byte(0x04, 0x40);
  constant32(code, 0);
  constant32(code, reason);
  memory(code, 0x36, header.stop, 2);
  code.byte(0x0c, 2, 0x0b);
}

/** Where the word has changed: an entry, and the word as last seen. The period in which the log fills is the last. */
function emitLook(
  emitter: Emitter,
  { canBeUnknown }: Period,
  { watched, word }: Look,
  instant: number,
  { entries, firstWatched }: Parts,
): void {
  const { code, layout } = emitter;
  const planes = [word.a[0], word.b[0]].map((term, plane) => ({
    term,
    plane,
    kept: firstWatched + 2 * watched + plane,
  }));
  for (const { kept, plane, term } of canBeUnknown[watched] ? planes : planes.slice(0, 1)) {
    emitTerm(emitter, term);
    getLocal(code, kept);
    code.byte(0x52);
    if (plane === 1) code.byte(0x72);
  }
  code.byte(0x04, 0x40);
  getLocal(code, logEnd);
  getLocal(code, taken);
  memory(code, 0x36, 0, 2);
  getLocal(code, logEnd);
  constant32(code, watched + instant * 65_536);
  memory(code, 0x36, 4, 2);
  for (const { kept, plane, term } of planes) {
    getLocal(code, logEnd);
    emitTerm(emitter, term);
    code.byte(0x22);
    code.unsigned(kept);
    memory(code, 0x37, 8 + 8 * plane);
  }
  getLocal(code, logEnd);
  constant32(code, entryBytes);
  code.byte(0x6a, 0x22);
  code.unsigned(logEnd);
  constant32(code, layout.logUntil - 2 * entries * entryBytes);
  code.byte(0x4b, 0x04, 0x40);
  constant32(code, 0);
  setLocal(code, asked);
  code.byte(0x0b, 0x0b);
}

/** All of what comes next is on the stack before any of it takes its place. */
function emitNext(emitter: Emitter, { next, state }: Period): void {
  const { code, localOf, terms } = emitter;
  const moves = state.flatMap(({ input, isOpen }, index) => {
    const { a, b } = next[index];
    return (isOpen ? [...a, ...b] : a).map((term, limb) => ({ term, local: firstInput + input + limb }));
  });
  const changing = moves.filter(({ local, term }) => terms.kinds[term] !== Kind.input || localOf[term] !== local);
  for (const { term } of changing) emitTerm(emitter, term);
  for (const { local } of [...changing].reverse()) setLocal(code, local);
}

function emitHome({ code, layout }: Emitter, homes: readonly HomeLimb[]): void {
  if (homes.length === 0) return;
  for (const [index, { input, mask }] of homes.entries()) {
    getLocal(code, firstInput + input);
    constant32(code, 0);
    memory(code, 0x29, layout.home + 8 * index);
    code.byte(0x85, 0x42);
    code.signed(BigInt.asIntN(64, mask));
    code.byte(0x83);
    if (index > 0) code.byte(0x84);
  }
  code.byte(0x50);
  stopIf(code, Stop.home);
}

/** The value of a term on the stack. */
function emitTerm(emitter: Emitter, term: Term): void {
  if (emitter.localOf[term] > 0) getLocal(emitter.code, emitter.localOf[term]);
  else emitFresh(emitter, term);
}

function emitFresh(emitter: Emitter, term: Term): void {
  const { code, layout, terms } = emitter;
  const kind = terms.kinds[term];
  const [x, y, z] = [terms.x[term] as Term, terms.y[term] as Term, terms.z[term] as Term];
  if (kind === Kind.constant) {
    code.byte(0x42);
    code.signed(BigInt.asIntN(64, terms.valueOf(term) as bigint));
  } else if (kind === Kind.choose) {
    emitTerm(emitter, y);
    emitTerm(emitter, z);
    emitCondition(emitter, x);
    code.byte(0x1b);
  } else if (kind === Kind.look) {
    emitTerm(emitter, y);
    code.byte(0xa7);
    constant32(code, 3);
    code.byte(0x74);
    memory(code, 0x29, layout.tables[x]);
  } else {
    emitTerm(emitter, x);
    if (y >= 0) emitTerm(emitter, y);
    code.byte(instructions[kind]);
    if (tests.has(kind)) code.byte(0xad);
  }
}

/** A number of 32 bits that is not 0 where the term is true. */
function emitCondition(emitter: Emitter, term: Term): void {
  const { code, localOf, terms } = emitter;
  const kind = terms.kinds[term];
  if (localOf[term] === 0 && tests.has(kind)) {
    emitTerm(emitter, terms.x[term] as Term);
    if (terms.y[term] >= 0) emitTerm(emitter, terms.y[term] as Term);
    code.byte(instructions[kind]);
    return;
  }
  emitTerm(emitter, term);
  if (terms.sizes[term] <= 32) code.byte(0xa7);
  else code.byte(0x42, 0, 0x52);
}

/** By kind: the instruction. */
const instructions: readonly number[] = [
  0, 0, 0x83, 0x84, 0x85, 0x7c, 0x7d, 0x7e, 0x80, 0x82, 0x86, 0x88, 0x87, 0x50, 0x51, 0x52, 0x54, 0, 0x7b, 0,
];

const tests: ReadonlySet<number> = new Set([Kind.isZero, Kind.equal, Kind.different, Kind.less]);

function getLocal(code: ByteWriter, local: number): void {
  code.byte(0x20);
  code.unsigned(local);
}

function setLocal(code: ByteWriter, local: number): void {
  code.byte(0x21);
  code.unsigned(local);
}

function constant32(code: ByteWriter, value: number): void {
  code.byte(0x41);
  code.signed(BigInt(value | 0));
}

/** A load or store at an offset from the address on the stack; alignment as a power of two. */
function memory(code: ByteWriter, instruction: number, offset: number, alignment = 3): void {
  code.byte(instruction, alignment);
  code.unsigned(offset);
}

function storeHeader(code: ByteWriter, at: number, local: number): void {
  constant32(code, 0);
  getLocal(code, local);
  memory(code, 0x36, at, 2);
}
