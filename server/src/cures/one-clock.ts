// `ripple-chain`: every stage takes the clock of the first, and does at it what it does now only where the stages before it
// are about to pass the edge that clocks it: one enable each. For stages written one by one in one module.

import type { Register } from '../netlist/netlist';
import { clockedForm, clockedFrom, formsOf, registersOn } from './clocked-form';
import type { CureContext, CureRule } from './cure';
import type { UnitEdit } from './edits';
import { aboutToMove, createNextWires, type NextWires } from './next-wires';
import { joined } from './next-value';

export const oneClock: CureRule = {
  finding: 'ripple-chain',
  propose(context, finding) {
    const { network, netlist } = context.facts;
    const chain = network.chains.find(
      ({ registers }) =>
        netlist.registers[registers[1]].clockPlace.start === finding.place.start &&
        netlist.registers[registers[1]].clockPlace.unit === finding.place.unit,
    );
    if (chain === undefined) return null;
    const stages = chain.registers.map((id) => netlist.registers[id]);
    const [first] = stages;
    const edge = `${first.edge === 'rising' ? 'posedge' : 'negedge'} ${first.clockText}`;
    const wires = createNextWires(context, first.clockPlace);
    const edits: UnitEdit[] = [];
    const enables: string[] = [];
    for (let index = 1; index < stages.length; index++) {
      const enable = enableOf(context, wires, stages[index - 1], chain.clockBits[index - 1], stages[index]);
      const forms = formsOf(context, registersOn(context, network.registers[stages[index].id].clock));
      if (enable === null || forms === null || stages[index].instance !== first.instance) return null;
      enables.push(enable);
      edits.push(...forms.flatMap((form) => clockedFrom(form, edge, joined(enables))));
    }
    return {
      title: `clock all of them from ${first.clockText}, each enabled by those before it`,
      edits: [...wires.edits(), ...edits],
      promise: { kind: 'readings' },
      differs: [
        `all of them follow the edge of ${first.clockText} together; what samples one of them at that edge now reads the value from before it`,
      ],
    };
  },
};

/** When the stage before is about to pass the edge that clocks this one. */
function enableOf(
  context: CureContext,
  wires: NextWires,
  before: Register,
  clockBit: number,
  { edge }: Register,
): string | null {
  const form = clockedForm(context, before);
  return form === null ? null : aboutToMove(context, wires, before, clockBit, edge);
}
