// `registers[]` of the report: each register with its clock, controls and numbers over time. Words of memories are none.

import type { ControlUse, RegisterClocking } from '../clocks/network';
import { declaredIndex } from '../netlist/bit-names';
import { digitAt } from '../netlist/four-state';
import { type EnableRegion, memoryWords, type NodeId, type Register, type Signal } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';
import type { Fraction, RegisterTiming } from '../predict/prediction';
import { type DesignFacts, domainName, fractionText, registerName, rootNames } from './design-facts';
import { inOrder } from '../explain/places';
import type { LoadingControl, ReportRegister } from './report';

export function buildRegisters(facts: DesignFacts): readonly ReportRegister[] {
  const { netlist } = facts;
  const words = memoryWords(netlist);
  const listed = netlist.registers.filter(({ signal }) => !words.has(signal));
  const built = listed.map((register) => buildRegister(facts, register));
  const pathOf = new Map(built.map((entry, index) => [entry, netlist.instances[listed[index].instance].path]));
  return inOrder(built, (entry) => pathOf.get(entry) ?? '');
}

function buildRegister(facts: DesignFacts, register: Register): ReportRegister {
  const { netlist, network, places, prediction } = facts;
  const signal = netlist.signals[register.signal];
  const clocking = network.registers[register.id];
  const clock = network.clocks[clocking.clock];
  return {
    name: registerName(facts, register.id),
    signal: signal.name,
    msb: declaredIndex(signal, register.low + register.width - 1),
    lsb: declaredIndex(signal, register.low),
    module: netlist.instances[register.instance].module,
    clock: { signal: clock.name, written: register.clockText, edge: clocking.edge },
    root: rootOf(facts, clocking),
    roots: rootNames(facts, clocking.roots),
    domain: domainName(facts, clocking.domain),
    stage: clocking.stage,
    asynchronous: clocking.asynchronous.map((control) => buildLoadingControl(facts, control)),
    synchronous: clocking.synchronous.map((control) => buildLoadingControl(facts, control)),
    enable: clocking.enable === null ? null : { signal: clocking.enable.name, active: clocking.enable.active },
    enables: register.enables.map((region) => buildEnable(facts, signal, register, region)),
    ...timingOf(prediction.registers[register.id], register.width),
    span: places.spanOf(register.place),
    sampleSpan: places.spanOf(register.samplePlace),
  };
}

function rootOf({ network }: DesignFacts, { root }: RegisterClocking): ReportRegister['root'] {
  return root === null ? null : { signal: network.roots[root.root].name, edge: root.edge };
}

/** A control and what it loads: of registers and of latches. */
export function buildLoadingControl(facts: DesignFacts, control: ControlUse): LoadingControl {
  return { signal: control.name, active: control.active, value: control.digits ?? valueText(facts, control.value) };
}

/** Binary digits where every bit is wired to a constant, else the expression as the text has it. */
export function valueText({ netlist, places }: DesignFacts, node: NodeId): string {
  const { nodes } = netlist;
  let digits = '';
  for (let bit = nodes.width[node] - 1; bit >= 0; bit -= 1) {
    const source = sourceBit(nodes, { node, bit });
    const op = nodes.op[source.node];
    if (op !== Op.constant && op !== Op.zeroExtend) return places.textOf(netlist.places[nodes.place[node]]);
    digits += op === Op.zeroExtend ? '0' : digitAt(netlist.constants[nodes.aux[source.node]], source.bit);
  }
  return digits;
}

function buildEnable(
  { places }: DesignFacts,
  signal: Signal,
  register: Register,
  { low, width, text, place }: EnableRegion,
): ReportRegister['enables'][number] {
  const first = register.low + low;
  return {
    msb: declaredIndex(signal, first + width - 1),
    lsb: declaredIndex(signal, first),
    text,
    span: places.spanOf(place),
  };
}

type Timing = Pick<
  ReportRegister,
  | 'updateEvery'
  | 'start'
  | 'startFrom'
  | 'constant'
  | 'arrival'
  | 'settles'
  | 'ratio'
  | 'duty'
  | 'bitRatios'
  | 'bitDuties'
>;

function timingOf(timing: RegisterTiming, width: number): Timing {
  const isVector = width > 1;
  return {
    updateEvery: fractionText(timing.updateEvery),
    start: timing.start,
    startFrom: timing.startFrom,
    constant: timing.constant,
    arrival: timing.arrival,
    settles: settlesOf(timing),
    ratio: fractionText(isVector ? commonPeriod(timing.ratios) : timing.ratios[0]),
    duty: isVector ? null : fractionText(timing.duties[0]),
    bitRatios: isVector ? timing.ratios.map(fractionText) : [],
    bitDuties: isVector ? timing.duties.map(fractionText) : [],
  };
}

function settlesOf({ settles }: RegisterTiming): ReportRegister['settles'] {
  if (settles === null) return null;
  const { min, typ, max } = settles.all;
  return { rise: settles.rise, fall: settles.fall, min, typ, max };
}

/**
 * The least period of several bits taken together: the least common multiple of theirs. For fractions in lowest terms
 * that is lcm of the numerators over gcd of the denominators. Null where one of them does not repeat.
 */
export function commonPeriod(periods: readonly (Fraction | null)[]): Fraction | null {
  let common: Fraction | null = null;
  for (const period of periods) {
    if (period === null) return null;
    common =
      common === null
        ? period
        : {
            numerator: (common.numerator / gcd(common.numerator, period.numerator)) * period.numerator,
            denominator: gcd(common.denominator, period.denominator),
          };
  }
  return common;
}

function gcd(left: bigint, right: bigint): bigint {
  let [a, b] = [left, right];
  while (b !== 0n) [a, b] = [b, a % b];
  return a;
}
