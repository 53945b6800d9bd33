// `bare-crossing` of one bit: two flip-flops of the receiving clock in a row before anything reads it. Refused for several
// bits, which two flip-flops each do not keep together, unless only one of them changes at a time in every state.

import type { Crossing } from '../clocks/network';
import { sourceBit } from '../netlist/trace';
import type { Place } from '../text/place';
import { rangeText } from './declared';
import { inserting, replacing } from './edits';
import type { CureContext, CureRule } from './cure';
import { freeName, indentationAt, isPlainName, lineEndOf, processAt } from './text';

export const twoFlops: CureRule = {
  finding: 'bare-crossing',
  propose(context, finding) {
    const { facts, reading } = context;
    const { netlist, network } = facts;
    const crossing = network.crossings.find(
      ({ place, to }) => samePlace(place, finding.place) && finding.signals.includes(nameOf(context, to)),
    );
    const process = processAt(reading, finding.place);
    const isOne = crossing?.source != null;
    if (crossing === undefined || (!isOne && !crossing.isGray) || process?.body.kind !== 'event') return null;
    const register = netlist.registers[crossing.to];
    const reads = isOne ? readsOf(context, crossing) : readsOfCode(context, crossing);
    const { text } = reading.units[finding.place.unit];
    const names = new Set(reads.map((place) => text.slice(place.start, place.end)));
    const [read] = names;
    if (names.size !== 1 || read === undefined) return null;
    const plain = read.replace(/\[(\d+)\]$/, '_$1');
    if (!isPlainName(plain) || !isPlainName(register.clockText)) return null;
    const [meta, sync] = [freeName(text, `${plain}_meta`), freeName(text, `${plain}_sync`)];
    const lines = [
      `reg ${isOne ? '' : rangeText(context, finding.place.unit, plain)}${meta}, ${sync};`,
      `always @(${register.edge === 'rising' ? 'posedge' : 'negedge'} ${register.clockText}) begin`,
      `  ${meta} <= ${read};`,
      `  ${sync} <= ${meta};`,
      'end',
    ];
    const break_ = `${lineEndOf(text)}${indentationAt(text, process.at.start)}`;
    const { unit } = finding.place;
    return {
      title: `bring ${read} over through two flip-flops of ${register.clockText}`,
      edits: [
        inserting(unit, process.at.start, `${lines.join(break_)}${break_}`),
        ...reads.map((place) => replacing(place, sync)),
      ],
      promise: { kind: 'none' },
      differs: [
        `${read} is seen two periods of ${register.clockText} later; what stands for less than a period of it may not be seen at all`,
        ...(isOne
          ? []
          : [
              `${read} changes in one bit at a time, in every state that was followed: what is read is its old value or its new one`,
            ]),
      ],
    };
  },
};

function nameOf({ facts }: CureContext, register: number): string {
  const { low, signal, width } = facts.netlist.registers[register];
  const { lsb, msb, name, scalar } = facts.netlist.signals[signal];
  if (scalar) return name;
  const index = (bit: number) => (msb >= lsb ? lsb + bit : lsb - bit);
  return width === 1 ? `${name}[${index(low)}]` : `${name}[${index(low + width - 1)}:${index(low)}]`;
}

/** Where the process that samples it reads the crossing bit. */
function readsOf({ facts: { netlist } }: CureContext, { source, to }: Crossing): readonly Place[] {
  const { processes, registers, signals, nodes } = netlist;
  const found = processes[registers[to].process].reads.filter(({ low, signal, width }) => {
    if (width !== 1 || source === null) return false;
    const bit = sourceBit(nodes, { node: signals[signal].node, bit: low });
    return bit.node === source.node && bit.bit === source.bit;
  });
  return found.map(({ place }) => place);
}

/** Where the process that samples it reads the whole signal that crosses. */
function readsOfCode({ facts: { netlist } }: CureContext, { bits, from, to }: Crossing): readonly Place[] {
  if (from.length !== 1 || from[0].register === null) return [];
  const sender = netlist.registers[from[0].register];
  return netlist.processes[netlist.registers[to].process].reads
    .filter(({ low, signal, width }) => {
      const { node, width: whole } = netlist.signals[signal];
      if (low !== 0 || width !== whole || width !== bits || sender.width !== bits) return false;
      const bit = sourceBit(netlist.nodes, { node, bit: 0 });
      return bit.node === sender.node && bit.bit === 0;
    })
    .map(({ place }) => place);
}

function samePlace(left: Place, right: Place): boolean {
  return left.unit === right.unit && left.start === right.start && left.end === right.end;
}
