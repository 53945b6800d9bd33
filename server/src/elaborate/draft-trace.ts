// Follows one bit of a draft back through names, plain continuous assignments, buffers and inverters: what an alias or
// an inverse of a signal stands for (definition 12).

import { digitAt, hasUnknown } from '../netlist/four-state';
import type { NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { DriverDraft, ModuleDraft } from './module-draft';

export interface TracedBit {
  readonly node: NodeId;
  readonly bit: number;
  readonly inverted: boolean;
}

/** More names than this in a row are not followed: a ring of assignments has no end. */
const longestTrace = 1000;

export function traceBit(draft: ModuleDraft, node: NodeId, bit: number): TracedBit {
  let at: TracedBit = { node, bit, inverted: false };
  for (let steps = 0; steps < longestTrace; steps++) {
    const next = stepBack(draft, at);
    if (next === null) return at;
    at = next;
  }
  return at;
}

export function isSameSource(left: TracedBit, right: TracedBit): boolean {
  return left.node === right.node && left.bit === right.bit;
}

function stepBack(draft: ModuleDraft, at: TracedBit): TracedBit | null {
  const { nodes } = draft.nodes;
  const { node, bit, inverted } = at;
  const first = nodes.pool[nodes.first[node]] as NodeId;
  switch (nodes.op[node]) {
    case Op.net:
      return throughName(draft, at, nodes.aux[node]);
    case Op.slice:
      return { node: first, bit: bit + nodes.aux[node], inverted };
    case Op.concat:
      return throughConcat(draft, at);
    case Op.buf:
      return { node: first, bit, inverted };
    case Op.not:
      return { node: first, bit, inverted: !inverted };
    case Op.equal:
      return throughEqual(draft, at);
    default:
      return null;
  }
}

function throughName(draft: ModuleDraft, { bit, inverted }: TracedBit, signal: number): TracedBit | null {
  const drivers = driversOf(draft, signal).filter(({ low, width }) => low <= bit && bit < low + width);
  if (drivers.length !== 1 || !drivers[0].isContinuous || drivers[0].value.kind !== 'node') return null;
  return { node: drivers[0].value.node, bit: bit - drivers[0].low, inverted };
}

const driverIndices = new WeakMap<ModuleDraft, { count: number; readonly bySignal: Map<number, DriverDraft[]> }>();

/** Drivers known so far, by signal. */
function driversOf(draft: ModuleDraft, signal: number): readonly DriverDraft[] {
  let index = driverIndices.get(draft);
  if (index === undefined) {
    index = { count: 0, bySignal: new Map() };
    driverIndices.set(draft, index);
  }
  for (; index.count < draft.drivers.length; index.count++) {
    const driver = draft.drivers[index.count];
    const list = index.bySignal.get(driver.signal);
    if (list === undefined) index.bySignal.set(driver.signal, [driver]);
    else list.push(driver);
  }
  return index.bySignal.get(signal) ?? [];
}

function throughConcat(draft: ModuleDraft, { node, bit, inverted }: TracedBit): TracedBit | null {
  const { nodes } = draft.nodes;
  let below = 0;
  for (let entry = nodes.first[node] + nodes.arity[node] - 1; entry >= nodes.first[node]; entry--) {
    const part = nodes.pool[entry] as NodeId;
    if (bit < below + nodes.width[part]) return { node: part, bit: bit - below, inverted };
    below += nodes.width[part];
  }
  return null;
}

/** `s == 1` is s and `s == 0` is its inverse, also where s was widened with zeros to meet the number. */
function throughEqual(draft: ModuleDraft, { node, inverted }: TracedBit): TracedBit | null {
  const { nodes } = draft;
  const { first, pool } = nodes.nodes;
  const operands = [pool[first[node]] as NodeId, pool[first[node] + 1] as NodeId];
  const constant = operands.map((operand) => nodes.constantOf(operand)).find((bits) => bits !== null);
  const signal = operands.find((operand) => nodes.constantOf(operand) === null);
  if (constant === undefined || constant === null || signal === undefined || hasUnknown(constant)) return null;
  for (let bit = 1; bit < constant.width; bit++) if (digitAt(constant, bit) !== '0') return null;
  if (!isSingleBit(draft, signal)) return null;
  return { node: signal, bit: 0, inverted: digitAt(constant, 0) === '1' ? inverted : !inverted };
}

function isSingleBit({ nodes }: ModuleDraft, node: NodeId): boolean {
  const { op, width, first, arity, pool } = nodes.nodes;
  if (width[node] === 1) return true;
  if (op[node] !== Op.concat || arity[node] !== 2) return false;
  const top = nodes.constantOf(pool[first[node]] as NodeId);
  return width[pool[first[node] + 1]] === 1 && top !== null && !hasUnknown(top) && top.a.every((limb) => limb === 0);
}
