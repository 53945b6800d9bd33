// What comes out of a gate or multiplexer in a clock path, from what its clock operands are (definitions 3 and 5). More
// than one clock makes a decode, a switch or one clock again, by whether they are one and the same before their gates.

import type { Bit } from '../netlist/netlist';
import type { ClockOperands } from './clock-operands';
import { type ClockWalk, openWalk, type Sense, turnedSense } from './clock-walk';
import { sameBit } from './context';
import { type EdgeSet, noEdge } from './edge-set';
import type { GateStep } from './gate-shape';
import type { ClockKind } from './network';

/** `values` in the order of the clock operands; null for one that waits for this very gate. */
export function throughGate(
  bit: Bit,
  step: GateStep,
  operands: ClockOperands,
  values: readonly (ClockWalk | null)[],
): ClockWalk {
  const clocks = values.filter((value) => value !== null);
  if (clocks.length === 0) return { ...openWalk(bit), from: operands.clocks, gate: { step, operands } };
  const rises = union(clocks.map((clock) => clock.rises));
  const falls = union(clocks.map((clock) => clock.falls));
  const sense = senseOf(step, operands);
  const style = styleOf(step, operands, clocks);
  return {
    bit,
    kind: kindOfGate(style, operands, clocks),
    from: clocks.map((clock) => clock.bit),
    roots: sortedUnion(clocks.map((clock) => clock.roots)),
    isOpen: clocks.length < values.length || clocks.some((clock) => clock.isOpen),
    stage: clocks.reduce((longest, clock) => Math.max(longest, clock.stage), 0),
    rises: sense === 'unknown' ? rises | falls : sense === 'inverted' ? falls : rises,
    falls: sense === 'unknown' ? rises | falls : sense === 'inverted' ? rises : falls,
    domain: domainOfGate(bit, style, clocks),
    sources: sourcesOfGate(clocks, sense),
    ...baseOfGate(bit, sense, clocks),
    gate: { step, operands: { ...operands, style } },
  };
}

/** Unknown: the output does not follow the clock in one direction. */
type GateSense = Sense | 'unknown';

/** Whether the output of a gate follows its clock, turned or not; unknown for exclusive or and for other logic. */
function senseOf(step: GateStep, { clocks }: ClockOperands): GateSense {
  if (step.shape === 'xor' || step.shape === 'other') return 'unknown';
  const selects = step.selects.some((select) => clocks.some((clock) => sameBit(clock, select)));
  if (selects) return 'unknown';
  return step.inverted ? 'inverted' : 'straight';
}

/**
 * Gates of different clocks brought together by one more gate choose between clocks as a multiplexer does; a
 * multiplexer whose data are one clock, gated or turned over or not, chooses no clock.
 */
function styleOf(step: GateStep, { style }: ClockOperands, clocks: readonly ClockWalk[]): ClockOperands['style'] {
  if (style === 'switch') return clocks.every(({ base }) => sameBit(base, clocks[0].base)) ? 'gate' : 'switch';
  const joins = style === 'gate' && (step.shape === 'and' || step.shape === 'or') && clocks.length > 1;
  return joins && clocks.every(({ kind }) => kind === 'gated') && !haveOneBase(clocks) ? 'switch' : style;
}

function haveOneBase([first, ...others]: readonly ClockWalk[]): boolean {
  return others.every(({ base, sense }) => sameBit(base, first.base) && sense === first.sense);
}

function kindOfGate(
  style: ClockOperands['style'],
  { controls }: ClockOperands,
  clocks: readonly ClockWalk[],
): ClockKind {
  if (style === 'switch') return 'switched';
  if (style === 'decode') return 'derived';
  return controls.length > 0 || clocks.some(({ kind }) => kind === 'gated') ? 'gated' : 'derived';
}

/** Clocks of one domain stay in it; a choice between clocks is a domain of its own (definition 5), as is any other mix. */
function domainOfGate(bit: Bit, style: ClockOperands['style'], clocks: readonly ClockWalk[]): Bit | null {
  const [first, ...others] = clocks.map((clock) => clock.domain);
  if (first === null || others.some((domain) => domain === null)) return null;
  if (style === 'switch') return bit;
  return others.every((domain) => domain !== null && sameBit(domain, first)) ? first : bit;
}

function baseOfGate(bit: Bit, sense: GateSense, clocks: readonly ClockWalk[]): Pick<ClockWalk, 'base' | 'sense'> {
  if (sense === 'unknown' || !haveOneBase(clocks)) return { base: bit, sense: 'straight' };
  const [{ base, sense: before }] = clocks;
  return { base, sense: sense === 'inverted' ? turnedSense(before) : before };
}

function sourcesOfGate(clocks: readonly ClockWalk[], sense: GateSense): ClockWalk['sources'] {
  const all = clocks.flatMap((clock) => clock.sources);
  const seen = new Set<string>();
  return all
    .filter(({ register, bit }) => !seen.has(`${register} ${bit}`) && seen.add(`${register} ${bit}`))
    .map((source) => (sense === 'inverted' ? { ...source, inverted: !source.inverted } : source));
}

function union(sets: readonly EdgeSet[]): EdgeSet {
  return sets.reduce((all, set) => all | set, noEdge);
}

function sortedUnion(lists: readonly (readonly number[])[]): number[] {
  return [...new Set(lists.flat())].sort((left, right) => left - right);
}
