// Where a control comes from: the registers, latches, ports and constants that it is computed from, and what a person
// stated about them.

import type { Bit, LatchId, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { coneSources } from './cone-bits';
import { constantLevel, type Context, opOf } from './context';
import type { GateControl } from './network';
import { peelToName } from './peel';

export interface Launches {
  readonly source: GateControl['source'];
  /** Each once, ascending. */
  readonly registers: readonly RegisterId[];
  readonly latches: readonly LatchId[];
  /** Ports, black boxes and whatever else drives from outside. */
  readonly outside: readonly Bit[];
}

/** What is stated static counts as constant. */
export function launchesOf(context: Context, bit: Bit): Launches {
  const moving = coneSources(context, [bit]).filter(
    (source) => constantLevel(context, source) === null && !isStatedStatic(context, source),
  );
  const ofKind = (op: number) => moving.filter((source) => opOf(context, source) === op);
  const idsOf = (op: number) => [...new Set(ofKind(op).map(({ node }) => context.nodes.aux[node]))];
  const outside = moving.filter((source) => ![Op.register, Op.latch].some((op) => op === opOf(context, source)));
  return {
    source: sourceKind(context, moving),
    registers: idsOf(Op.register) as RegisterId[],
    latches: idsOf(Op.latch) as LatchId[],
    outside,
  };
}

function sourceKind(context: Context, moving: readonly Bit[]): GateControl['source'] {
  const ops = new Set(moving.map((source) => opOf(context, source)));
  if (ops.size === 0) return 'constant';
  if (ops.size > 1) return 'mixed';
  if (ops.has(Op.register)) return 'register';
  if (ops.has(Op.latch)) return 'latch';
  if (ops.has(Op.input)) return 'port';
  return ops.has(Op.blackBox) ? 'blackBox' : 'mixed';
}

/** Stated by the name of the bit, of its register, or of the whole signal. */
export function isStatedStatic(context: Context, source: Bit): boolean {
  const { static: stated } = context.options;
  if (stated.length === 0) return false;
  const name = context.names.nameOf(source);
  return name !== null && (stated.includes(name) || stated.includes(name.replace(/\[[^[\]]*\]$/, '')));
}

/** The name of a control: its own, else that of the one thing it is made of, else of all of them. */
export function controlName(context: Context, bit: Bit): string {
  const own = context.names.canonicalNameOf(peelToName(context, bit).bit);
  if (own !== null) return own;
  const parts = coneSources(context, [bit]).map((source) => context.names.nameOf(source));
  return [...new Set(parts.filter((part) => part !== null))].join(', ');
}
