// Registers and latches with their real nodes, and how a process keeps what it does not assign.

import { allX } from '../netlist/four-state';
import { slice } from '../netlist/four-state-parts';
import type {
  AsynchronousControl,
  Bit,
  EnableRegion,
  Latch,
  LatchId,
  NodeId,
  ProcessId,
  Register,
  RegisterId,
  SignalId,
} from '../netlist/netlist';
import { concatOf } from '../netlist/node-makers';
import { Op } from '../netlist/operators';
import { impossible } from '../text/impossible';
import { delayIndex } from './continuous';
import type { Finishing, StateOutputs } from './finishing';
import { type ControlDraft, type Hold, type LatchDraft, type RegisterDraft, signalAt } from './module-draft';
import { pathNode, pathText } from './path-text';
import type { SettledDrivers } from './settle-drivers';
import type { ResetInEnable } from './template';

/** Yields now and then. */
export function* finishRegisters(finishing: Finishing): Generator<void, Omit<Register, 'instance'>[]> {
  const finished: Omit<Register, 'instance'>[] = [];
  for (const [index, register] of finishing.settled.registers.entries()) {
    finished.push(finishRegister(finishing, register, index));
    if (index % 256 === 255) yield;
  }
  return finished;
}

function finishRegister(finishing: Finishing, register: RegisterDraft, index: number): Omit<Register, 'instance'> {
  const { draft, start, outputs } = finishing;
  const { source } = draft;
  const { signal, low, width, clock, delay } = register;
  const local = signalAt(draft, signal);
  const initialAt = start.placeOf(local);
  return {
    id: index as RegisterId,
    signal: signal as SignalId,
    low,
    width,
    node: outputNode(outputs, register),
    clock: bitOf(finishing, clock.node),
    edge: clock.edge === 'negedge' ? 'falling' : 'rising',
    clockText: source.textOf(clock.at),
    clockPlace: source.place(clock.at),
    asynchronous: register.asynchronous.map((control) => finishControl(finishing, control)),
    data: finishing.convert(register.data),
    delay: delay === null ? -1 : delayIndex(draft, delay.scope, delay.table),
    initial: slice(start.startOf(local), low, width),
    initialPlace: initialAt === null ? null : source.place(initialAt),
    process: register.process as ProcessId,
    place: source.place(local.at),
    samplePlace: source.place(register.sampleAt),
    enables: register.enables.map((region): EnableRegion => {
      const place = source.place(region.at);
      return {
        low: region.low,
        width: region.width,
        condition: finishing.convert(pathNode(region.path, draft.nodes, place)),
        text: pathText(region.path),
        place: source.place(region.path.at),
      };
    }),
  };
}

function finishControl(finishing: Finishing, { control, active, value, at }: ControlDraft): AsynchronousControl {
  return {
    control: bitOf(finishing, control),
    active,
    value: finishing.convert(value),
    place: finishing.draft.source.place(at),
  };
}

export function finishLatches(finishing: Finishing): Omit<Latch, 'instance'>[] {
  const { draft, start, settled, outputs } = finishing;
  const { source } = draft;
  return settled.latches.map((latch, index) => {
    const local = signalAt(draft, latch.signal);
    return {
      id: index as LatchId,
      signal: latch.signal as SignalId,
      low: latch.low,
      width: latch.width,
      node: outputNode(outputs, latch),
      gate: bitOf(finishing, latch.gate),
      active: latch.active,
      asynchronous: latch.asynchronous.map((control) => finishControl(finishing, control)),
      data: finishing.convert(latch.data),
      initial: slice(start.startOf(local), latch.low, latch.width),
      process: latch.process as ProcessId,
      place: source.place(local.at),
      holdPlace: source.place(latch.holdAt),
      flavor: latch.flavor,
      othersComplete: latch.othersComplete,
    };
  });
}

export function finishResetsInEnable(finishing: Finishing): ResetInEnable[] {
  const { draft, settled } = finishing;
  return settled.registers.flatMap(({ resetsInEnable, signal }, register) =>
    resetsInEnable.map(({ control, active, at }) => ({
      register,
      signal: signal as SignalId,
      control: finishing.convert(control),
      active,
      place: draft.source.place(at),
    })),
  );
}

/** A drafted node of width 1 as a bit of the net it is taken from, where it is one. */
export function bitOf({ convert, made }: Finishing, drafted: NodeId): Bit {
  const { nodes } = made;
  let node = convert(drafted);
  let bit = 0;
  while (nodes.op[node] === Op.slice) {
    bit += nodes.aux[node];
    node = nodes.pool[nodes.first[node]] as NodeId;
  }
  return { node, bit };
}

function outputNode(outputs: StateOutputs, state: RegisterDraft | LatchDraft): NodeId {
  return outputs.get(state) ?? impossible(`no node for a state of signal ${state.signal}`);
}

type State = RegisterDraft | LatchDraft;

/** Registers and latches by what a process keeps of a signal, lowest first. */
export function statesByHold({ registers, latches }: SettledDrivers): ReadonlyMap<string, readonly State[]> {
  const states = new Map<string, State[]>();
  for (const state of [...registers, ...latches]) {
    const key = holdKey(state);
    const list = states.get(key);
    if (list === undefined) states.set(key, [state]);
    else list.push(state);
  }
  for (const list of states.values()) list.sort((left, right) => left.low - right.low);
  return states;
}

function holdKey({ process, signal }: Hold): string {
  return `${process} ${signal}`;
}

/** A signal as one process keeps it: its registers and latches there; what it does not keep is x. */
export function keptSignal(
  { draft, made, outputs }: Pick<Finishing, 'draft' | 'made' | 'outputs'>,
  states: ReadonlyMap<string, readonly State[]>,
  hold: Hold,
): NodeId {
  const local = signalAt(draft, hold.signal);
  const place = draft.source.place(local.at);
  const parts: NodeId[] = [];
  let done = 0;
  const gap = (until: number) => {
    if (until > done) parts.unshift(made.constant(allX(until - done), place));
  };
  for (const state of states.get(holdKey(hold)) ?? []) {
    gap(state.low);
    parts.unshift(outputNode(outputs, state));
    done = state.low + state.width;
  }
  gap(local.shape.width);
  return concatOf(made, parts, place);
}
