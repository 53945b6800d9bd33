// `ripple-chain`: every stage takes the clock of the first, and turns over only where all stages before it are about to pass
// the level that clocked it: one enable each. For stages of the form `always @(edge q) r <= ~r;`, with or without an
// asynchronous reset before it, written one by one in one module.

import type { Register } from '../netlist/netlist';
import type { Statement } from '../syntax/tables';
import { inserting, replacing, type UnitEdit } from './edits';
import type { CureContext, CureRule } from './cure';
import { processAt } from './text';

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
    const [first, ...later] = stages;
    if (stages.some(({ instance, width }) => instance !== first.instance || width !== 1)) return null;
    const clock = `${first.edge === 'rising' ? 'posedge' : 'negedge'} ${first.clockText}`;
    const edits: UnitEdit[] = [];
    const enables: string[] = [];
    for (const stage of later) {
      // The stage before is about to fall where it is 1, to rise where it is 0.
      enables.push(stage.edge === 'falling' ? stage.clockText : `~${stage.clockText}`);
      const stageEdits = editsOf(context, stage, clock, enables.join(' & '));
      if (stageEdits === null) return null;
      edits.push(...stageEdits);
    }
    const names = finding.signals;
    return {
      title: `clock all of them from ${first.clockText}, each enabled by those before it`,
      edits,
      promise: { kind: 'readings', registers: names },
      differs: [
        `all of them follow the edge of ${first.clockText} together; what samples one of them at that edge now reads the value from before it`,
      ],
    };
  },
};

function editsOf({ reading }: CureContext, stage: Register, clock: string, enable: string): readonly UnitEdit[] | null {
  const process = processAt(reading, stage.clockPlace);
  if (process?.body.kind !== 'event') return null;
  const { control, body } = process.body;
  const item = control.items.find(({ at }) => at.start <= stage.clockPlace.start && stage.clockPlace.end <= at.end);
  const turning = body === null ? null : turningOver(body);
  if (item === undefined || turning === null) return null;
  const { unit } = stage.clockPlace;
  return [
    replacing({ unit, start: item.at.start, end: item.at.end }, clock),
    inserting(unit, turning.at.start, `if (${enable}) `),
  ];
}

/** The only statement that is not the branch of a reset; it must turn the stage over. */
function turningOver(body: Statement): Statement | null {
  if (body.kind === 'block' && body.body.length === 1) return turningOver(body.body[0]);
  if (body.kind === 'if') return body.else === null ? null : turningOver(body.else);
  if (body.kind !== 'assign' || body.blocking || body.value.kind !== 'unary' || body.value.operator !== '~')
    return null;
  return body;
}
