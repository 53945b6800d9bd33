// Everything that a run is checked against: the timing checks of the text (IEEE 1364-2005 15) and, for every register that
// the text states none for, the limits of its delay set. What is null is checked by nothing.

import type { ClockNetwork } from '../clocks/network';
import type { DelaySet } from '../delays/delay-set';
import { setOfRegister } from '../delays/own-delays';
import type {
  Bit,
  CheckEvent,
  CheckKind,
  DelayTriple,
  InstanceId,
  Netlist,
  Register,
  RegisterId,
  SpecifiedRegister,
} from '../netlist/netlist';
import type { Place } from '../text/place';

export interface Check {
  readonly kind: CheckKind;
  readonly statedBy: 'text' | 'set';
  readonly instance: InstanceId;
  /** As in `TimingCheck`. */
  readonly reference: CheckEvent;
  readonly data: CheckEvent | null;
  readonly limits: readonly DelayTriple[];
  /** Of a delay set: who asks. */
  readonly register: RegisterId | null;
  /** While one of these bits stands at its level, the register does not sample, and no edge counts. */
  readonly idle: readonly { readonly bit: Bit; readonly level: 0 | 1 }[];
  readonly place: Place;
}

/** Those of the text first, each in the order of its netlist. */
export function checksOf(netlist: Netlist, network: ClockNetwork, delaySet: DelaySet): readonly Check[] {
  const written = (netlist.specified?.checks ?? []).map(
    (check): Check => ({ ...check, statedBy: 'text', register: null, idle: [] }),
  );
  const own = new Map(netlist.specified?.registers.map((stated) => [stated.register, stated] as const));
  const clocked = new Set<string>();
  return [
    ...written,
    ...netlist.registers.flatMap((register) => {
      const set = setOfRegister(delaySet, register.id);
      const stated = own.get(register.id) ?? null;
      return [
        ...sampleChecks(register, set, stated),
        ...controlChecks(register, set, stated),
        ...clockChecks(netlist, network, register, set, clocked),
      ];
    }),
  ];
}

function sampleChecks(register: Register, set: DelaySet, stated: SpecifiedRegister | null): Check[] {
  const { data, samplePlace: place, width } = register;
  const idle = register.asynchronous.map(({ active, control }) => ({ bit: control, level: levelOf(active) }));
  const sampled: CheckEvent = { ...every, bits: Array.from({ length: width }, (_, bit) => ({ node: data, bit })) };
  const check = (kind: 'setup' | 'hold', limit: DelayTriple | null): Check[] =>
    isNothing(limit) || (stated !== null && stated[kind] !== null)
      ? []
      : [{ ...base(register), kind, reference: clockOf(register), data: sampled, limits: [limit], idle, place }];
  return [...check('setup', set.setup), ...check('hold', set.hold)];
}

/** From a control's letting go to the clock. */
function controlChecks(register: Register, set: DelaySet, stated: SpecifiedRegister | null): Check[] {
  return register.asynchronous.flatMap(({ active, control }) => {
    const reference: CheckEvent = { ...every, bits: [control], edges: active === 'high' ? falling : rising };
    const check = (kind: 'recovery' | 'removal', limit: DelayTriple | null): Check[] =>
      isNothing(limit) || (stated !== null && stated[kind] !== null)
        ? []
        : [{ ...base(register), kind, reference, data: clockOf(register), limits: [limit] }];
    return [...check('recovery', set.recovery), ...check('removal', set.removal)];
  });
}

/** Once per clock and limit. A period is published for the first stage of a part. */
function clockChecks(
  { nodes }: Netlist,
  network: ClockNetwork,
  register: Register,
  set: DelaySet,
  clocked: Set<string>,
): Check[] {
  const { clock, stage } = network.registers[register.id] ?? { clock: -1, stage: 1 };
  const isFirst = (stage - 1) % (set.stagesPerPart ?? Number.POSITIVE_INFINITY) === 0;
  const isClock = nodes.width[register.clock.node] > register.clock.bit;
  const once = (kind: 'width' | 'period', limit: DelayTriple | null): limit is DelayTriple => {
    const key = `${kind} ${clock} ${register.edge} ${JSON.stringify(limit)}`;
    if (isNothing(limit) || !isClock || clocked.has(key)) return false;
    clocked.add(key);
    return true;
  };
  const found: Check[] = [];
  const pin: CheckEvent = { ...every, bits: [register.clock] };
  if (once('width', set.width)) found.push({ ...base(register), kind: 'width', reference: pin, limits: [set.width] });
  const { period } = set;
  if (isFirst && once('period', period))
    found.push({ ...base(register), kind: 'period', reference: clockOf(register), limits: [period] });
  return found;
}

function base({ clockPlace, id, instance }: Register) {
  const about = { statedBy: 'set', instance, register: id, place: clockPlace, data: null, idle: [] } as const;
  return about satisfies Partial<Check>;
}

const every: CheckEvent = { bits: [], edges: [], condition: null, text: '' };
const rising = ['01', '0x', 'x1'];
const falling = ['10', '1x', 'x0'];

function clockOf({ clock, edge }: Register): CheckEvent {
  return { ...every, bits: [clock], edges: edge === 'rising' ? ['01'] : ['10'] };
}

function levelOf(active: 'high' | 'low'): 0 | 1 {
  return active === 'high' ? 1 : 0;
}

function isNothing(limit: DelayTriple | null): limit is null {
  return limit === null || limit.max === 0;
}
