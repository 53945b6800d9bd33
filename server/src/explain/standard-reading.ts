// What IEEE 1364 to the letter gives where the hardware reading leaves a value unknown (definition 15): an unknown
// condition of `if` takes the else branch (9.4), an unknown selector of `case` matches no known label (9.5), a change from
// or to an unknown level is an edge or none by table 9-1. `?:` merges in both. Which of them made a choice node is told by
// the text it stands for. What cannot be told is left unsaid.

import { edgeOf } from '../netlist/edges';
import { evaluate } from '../netlist/evaluate';
import { type Bits, type Digit, digitAt, fromLimbs, hasUnknown } from '../netlist/four-state';
import { caseMatches, isTrue } from '../netlist/ieee';
import { type Bit, type EdgeKind, type Netlist, type NodeId, operand } from '../netlist/netlist';
import { isMemoryOperator, isSource, Op } from '../netlist/operators';
import { type Side, valueAt } from '../predict/wave-query';
import type { Waves } from '../predict/waves';
import type { Places } from './places';

interface Context {
  readonly netlist: Netlist;
  readonly places: Places;
  readonly waves: Waves;
}

export interface Instant {
  /** ps */
  readonly at: number;
  readonly side: Side;
}

/**
 * The digit that the standard gives for `bit` from what was stored at an instant, where the hardware reading gives x for
 * certain and the two differ; null where they agree, and where it cannot be told.
 */
export function standardDigit(context: Context, bit: Bit, instant: Instant): Digit | null {
  const both = evaluateCone(context, bit.node, instant);
  if (both === null || digitAt(both.hardware, bit.bit) !== 'x') return null;
  const digit = digitAt(both.standard, bit.bit);
  return digit === 'x' ? null : digit;
}

/**
 * The digit that a register bit holds by the standard after its clock went from one digit to another of which one is
 * unknown: what it samples (`data`, just before) where table 9-1 calls that its edge, else what it held. Null where it
 * cannot be told.
 */
export function standardSample(
  context: Context,
  register: { readonly edge: EdgeKind; readonly data: Bit; readonly held: Digit },
  clock: { readonly from: Digit; readonly to: Digit; readonly at: number },
): Digit | null {
  const { data, edge, held } = register;
  if (edgeOf(clock.from, clock.to) !== (edge === 'rising' ? 'posedge' : 'negedge')) return held;
  const both = evaluateCone(context, data.node, { at: clock.at, side: 'before' });
  const digit = both === null ? 'x' : digitAt(both.standard, data.bit);
  return digit === 'x' ? null : digit;
}

interface Both {
  readonly hardware: Bits;
  readonly standard: Bits;
}

/** Nodes looked at; a larger cone is not told about. */
const mostNodes = 2_048;

/** Operands before the node that reads them; null for a loop, for too large a cone, for what cannot be told. */
function evaluateCone(context: Context, root: NodeId, instant: Instant): Both | null {
  const values = new Map<NodeId, Both>();
  const open = new Set<NodeId>();
  const pending: NodeId[] = [root];
  for (let node = pending.at(-1); node !== undefined; node = pending.at(-1)) {
    const missing = values.has(node) ? [] : operandsOf(context.netlist, node).filter((operand) => !values.has(operand));
    if (missing.some((operand) => open.has(operand)) || values.size + missing.length > mostNodes) return null;
    if (missing.length > 0) {
      open.add(node);
      pending.push(...missing);
      continue;
    }
    const value = values.get(node) ?? valuesOf(context, node, values, instant);
    if (value === null) return null;
    values.set(node, value);
    open.delete(node);
    pending.pop();
  }
  return values.get(root) ?? null;
}

/** Where the waves hold the value themselves there is nothing to go behind: stored values, delays, memories. */
function operandsOf({ nodes }: Netlist, node: NodeId): readonly NodeId[] {
  const op = nodes.op[node];
  if (isSource(op) || op === Op.delay || isMemoryOperator(op)) return [];
  return Array.from({ length: nodes.arity[node] }, (_, index) => operand(nodes, node, index));
}

function valuesOf(context: Context, node: NodeId, values: ReadonlyMap<NodeId, Both>, instant: Instant): Both | null {
  const { netlist, waves } = context;
  const { nodes } = netlist;
  const operands = operandsOf(netlist, node).map((operand) => values.get(operand) as Both);
  if (nodes.op[node] === Op.constant) return same(netlist.constants[nodes.aux[node]]);
  if (operands.length === 0) return same(valueAt(netlist, waves, node, instant.at, instant.side));
  const apply = (bits: readonly Bits[]) => evaluate(nodes.op[node], nodes.width[node], bits, nodes.aux[node], netlist);
  const hardware = apply(operands.map((operand) => operand.hardware));
  const read = operands.map((operand) => operand.standard);
  const text = () => context.places.textOf(netlist.places[nodes.place[node]]);
  if (nodes.op[node] === Op.mux && !text().includes('?'))
    return { hardware, standard: isTrue(read[0]) ? read[1] : read[2] };
  if (nodes.op[node] !== Op.select || !hasUnknown(read[0])) return { hardware, standard: apply(read) };
  const standard = caseByStandard(netlist, node, read, text());
  return standard === null ? null : { hardware, standard };
}

function same(bits: Bits): Both {
  return { hardware: bits, standard: bits };
}

/**
 * The first item that matches, else the default. Of a case whose labels name every value the netlist keeps no default, so
 * what the standard does with an unknown selector is not in it: null.
 */
function caseByStandard(netlist: Netlist, node: NodeId, read: readonly Bits[], text: string): Bits | null {
  const arms = (read.length - 2) / 2;
  if (arms >= 2 ** read[0].width - 1) return null;
  const kind = (/^(?:unique0?|priority)?\s*(case[xz]?)\b/.exec(text)?.[1] ?? 'case') as 'case' | 'casex' | 'casez';
  const wildcards = netlist.nodes.aux[node] < 0 ? null : netlist.caseWildcards[netlist.nodes.aux[node]];
  for (let arm = 0; arm < arms; arm += 1) {
    const label = read[1 + 2 * arm];
    if (caseMatches(kind, read[0], wildcards === null ? label : freed(label, wildcards[arm]))) return read[2 + 2 * arm];
  }
  return read[read.length - 1];
}

/** The label with z again where it matches anything. */
function freed(label: Bits, wildcards: Bits): Bits {
  const a = label.a.map((limb, index) => limb & ~wildcards.a[index]);
  const b = label.b.map((limb, index) => limb | wildcards.a[index]);
  return fromLimbs(label.width, a, b);
}
