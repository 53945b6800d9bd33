// `derived-clock`: what a register's output clocks takes that register's own clock, and does at it what it does now only
// where the output is about to pass the edge: an enable in place of a clock. Where the clock is logic of registers, what
// it gives before and after the edge is compared.

import type { Register } from '../netlist/netlist';
import { definitionOf, moduleOf } from './declared';
import { clockedFrom, formsOf, registersOn } from './clocked-form';
import type { CureContext, CureRule } from './cure';
import type { UnitEdit } from './edits';
import { nextExpression } from './next-expression';
import { operandText } from './next-value';
import { aboutToMove, createNextWires, type NextWires } from './next-wires';
import { isPlainName } from './text';

export const edgeToEnable: CureRule = {
  finding: 'derived-clock',
  propose(context, finding) {
    const { network, netlist } = context.facts;
    const clock = network.clocks.find(({ kind, name }) => kind === 'derived' && name === finding.signals[0]);
    if (clock === undefined) return null;
    const clocked = registersOn(context, clock.id);
    const sources = clock.sourceRegisters.map(({ register }) => netlist.registers[register]);
    const forms = formsOf(context, [...clocked, ...sources]);
    if (clocked.length === 0 || sources.length === 0 || forms === null) return null;
    const [first] = sources;
    const isTogether = sources.every(({ clockText, edge }) => clockText === first.clockText && edge === first.edge);
    if (
      !isTogether ||
      clocked.some(({ clockText, edge }) => clockText !== clocked[0].clockText || edge !== clocked[0].edge)
    )
      return null;
    const wires = createNextWires(context, first.clockPlace);
    const enable =
      clock.sourceRegisters.length === 1 &&
      network.clocks[clock.id].fromNames.length === 1 &&
      isBitOf(context, clock.id)
        ? aboutToMove(context, wires, first, clock.sourceRegisters[0].bit, clocked[0].edge)
        : logicAboutToMove(context, wires, clocked[0]);
    if (enable === null) return null;
    const edge = `${first.edge === 'rising' ? 'posedge' : 'negedge'} ${first.clockText}`;
    const own = formsOf(context, clocked) ?? [];
    return {
      title: `clock from ${first.clockText} what ${clocked[0].clockText} clocks, enabled where that is about to ${clocked[0].edge === 'rising' ? 'rise' : 'fall'}`,
      edits: [...wires.edits(), ...own.flatMap((form): readonly UnitEdit[] => clockedFrom(form, edge, enable))],
      promise: { kind: 'readings' },
      differs: [
        `what ${clocked[0].clockText} clocked follows the edge of ${first.clockText} at once; what samples it at that edge now reads the value from before it`,
      ],
    };
  },
};

/** The clock is the register's output itself, not made of it by logic. */
function isBitOf({ facts: { netlist, network } }: CureContext, clock: number): boolean {
  const { bit, sourceRegisters } = network.clocks[clock];
  return netlist.registers[sourceRegisters[0].register].node === bit.node;
}

/** `clk2` of `wire clk2 = a & b`: it is about to rise where it is 0 and a_next & b_next is 1. */
function logicAboutToMove(
  context: CureContext,
  wires: NextWires,
  { clockPlace: { unit }, clockText, edge }: Register,
): string | null {
  const module = moduleOf(context, unit);
  const definition = module === null || !isPlainName(clockText) ? null : definitionOf(module, clockText);
  if (definition === null) return null;
  const next = nextExpression(context, wires, unit, definition.value);
  if (next === null || next.registers.length === 0) return null;
  const later = operandText(next.text);
  return edge === 'rising' ? `!${clockText} && ${later}` : `${clockText} && !${later}`;
}
