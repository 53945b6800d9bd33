// Registers and latches, for circuits by hand.

import { type Bits, bitsOf } from '../../server/src/netlist/four-state';
import type {
  AsynchronousControl,
  EdgeKind,
  EnableRegion,
  Latch,
  LatchId,
  Process,
  Register,
  RegisterId,
} from '../../server/src/netlist/netlist';
import type { NodeBuilder } from '../../server/src/netlist/node-builder';
import { Op } from '../../server/src/netlist/operators';
import type { Places, Scopes } from './circuit-places';
import type { Processes } from './circuit-processes';
import type { Declared, Signals, Stretch } from './circuit-signals';
import {
  type AsynchronousOption,
  type Declaration,
  type DelayOption,
  type LatchOptions,
  type Later,
  type RegisterSlice,
  type StateOptions,
  type Wire,
  widthOf,
} from './circuit-types';
import { bitOfWire } from './circuit-wires';

export interface StateContext {
  readonly builder: NodeBuilder;
  readonly places: Places;
  readonly scopes: Scopes;
  readonly signals: Signals;
  readonly processes: Processes;
  addDelay(delay: DelayOption): number;
  constant(digits: string): Wire;
  /** Runs when everything is declared. */
  atBuild(finish: () => void): void;
}

export interface State {
  readonly registers: readonly Register[];
  readonly latches: readonly Latch[];
  addRegisters(name: string, declaration: Declaration, slices: readonly RegisterSlice[]): Wire;
  addLatch(name: string, options: LatchOptions): Wire;
}

export function createState(context: StateContext): State {
  const { builder, places, processes, signals } = context;
  const registers: Register[] = [];
  const latches: Latch[] = [];
  let registerCount = 0;
  let latchCount = 0;

  function addSlice(declared: Declared, net: number, slice: RegisterSlice, { low, width }: Stretch): void {
    const id = registerCount as RegisterId;
    registerCount += 1;
    const node = builder.add(Op.register, width, [], id, declared.place);
    builder.drive(declared.nets[net], node);
    const what = { kind: 'clocked', flavor: 'always' } as const;
    const process = processes.add(declared.name, slice.process, what, declared.place);
    const samplePlace = places.next(`${declared.name} <=`);
    const part = { id, signal: declared.id, low, width, node, process, place: declared.place, samplePlace };
    context.atBuild(() => {
      registers[id] = finishRegister(context, declared, slice, part);
    });
  }

  return {
    registers,
    latches,
    addRegisters(name, declaration, slices) {
      const total = widthOf(declaration);
      const ordered = slices
        .map((slice) => ({ slice, low: slice.low ?? 0, width: slice.width ?? total }))
        .sort((left, right) => left.low - right.low);
      const declared = signals.declare(name, declaration, 'reg', ordered);
      for (const [net, { slice, low, width }] of ordered.entries()) addSlice(declared, net, slice, { low, width });
      return declared.whole;
    },
    addLatch(name, options) {
      const width = widthOf(options);
      const declared = signals.declare(name, options, 'reg', [{ low: 0, width }]);
      const id = latchCount as LatchId;
      latchCount += 1;
      const node = builder.add(Op.latch, width, [], id, declared.place);
      builder.drive(declared.nets[0], node);
      const what = { kind: 'latch', flavor: flavorOf(options) } as const;
      const process = processes.add(name, options.process, what, declared.place);
      const part = { id, width, node, process, holdPlace: places.next(`hold ${name}`) };
      context.atBuild(() => {
        latches[id] = finishLatch(context, declared, options, part);
      });
      return declared.whole;
    },
  };
}

type RegisterPart = Pick<Register, 'id' | 'signal' | 'low' | 'width' | 'node' | 'process' | 'place' | 'samplePlace'>;

function finishRegister(context: StateContext, declared: Declared, slice: RegisterSlice, part: RegisterPart): Register {
  const { builder, places, scopes, signals } = context;
  const clock = bitOfWire(builder, now(declared, slice.clock));
  const edge = slice.edge ?? 'rising';
  const clockPlace = places.next(`@ ${declared.name}`);
  const clockText = slice.clockText ?? signals.textOf(clock) ?? 'clock';
  const asynchronous = finishControls(context, declared, slice.asynchronous, part.width);
  const clockEntry = {
    edge: verilogEdge(edge),
    node: now(declared, slice.clock).node,
    text: clockText,
    place: clockPlace,
  };
  context.processes.amend(part.process, {
    sensitivity: [clockEntry, ...controlEntries(context, asynchronous)],
    assignments: [{ signal: part.signal, low: part.low, width: part.width, blocking: false, place: part.samplePlace }],
  });
  return {
    ...part,
    clock,
    edge,
    clockText,
    clockPlace,
    asynchronous,
    data: now(declared, slice.data).node,
    delay: slice.delay === undefined ? -1 : context.addDelay(slice.delay),
    initial: initialOf(slice, part.width),
    initialPlace: slice.initial === undefined ? null : places.next(`initial ${declared.name}`),
    instance: scopes.instanceOf(declared.name),
    enables: finishEnables(context, declared, slice, part.width),
  };
}

type LatchPart = Pick<Latch, 'id' | 'width' | 'node' | 'process' | 'holdPlace'>;

function finishLatch(context: StateContext, declared: Declared, options: LatchOptions, part: LatchPart): Latch {
  return {
    ...part,
    signal: declared.id,
    low: 0,
    gate: bitOfWire(context.builder, now(declared, options.gate)),
    active: options.active ?? 'high',
    asynchronous: finishControls(context, declared, options.asynchronous, part.width),
    data: now(declared, options.data).node,
    initial: initialOf(options, part.width),
    instance: context.scopes.instanceOf(declared.name),
    place: declared.place,
    flavor: options.flavor ?? 'always',
    othersComplete: options.othersComplete ?? false,
  };
}

function finishControls(
  context: StateContext,
  declared: Declared,
  controls: readonly AsynchronousOption[] = [],
  width: number,
): AsynchronousControl[] {
  return controls.map(({ control, active, value }) => {
    const loaded = typeof value === 'string' ? context.constant(value) : now(declared, value);
    if (loaded.width !== width) throw new Error(`an asynchronous value of ${loaded.width} bits for ${width}`);
    const bit = bitOfWire(context.builder, now(declared, control));
    return { control: bit, active, value: loaded.node, place: context.places.next('control') };
  });
}

function controlEntries(
  { signals }: StateContext,
  controls: readonly AsynchronousControl[],
): Process['sensitivity'][number][] {
  return controls.map(({ control, active, place }) => ({
    edge: verilogEdge(active === 'high' ? 'rising' : 'falling'),
    node: control.node,
    text: signals.textOf(control) ?? 'control',
    place,
  }));
}

function finishEnables(context: StateContext, declared: Declared, slice: RegisterSlice, width: number): EnableRegion[] {
  return (slice.enables ?? []).map((enable) => {
    const condition = now(declared, enable.condition);
    const text = enable.text ?? context.signals.textOf(bitOfWire(context.builder, condition)) ?? 'enable';
    const low = enable.low ?? 0;
    const place = context.places.next(text);
    return { low, width: enable.width ?? width - low, condition: condition.node, text, place };
  });
}

function now({ whole }: Declared, later: Later): Wire {
  return typeof later === 'function' ? later(whole) : later;
}

function verilogEdge(edge: EdgeKind): 'posedge' | 'negedge' {
  return edge === 'rising' ? 'posedge' : 'negedge';
}

function flavorOf({ flavor }: LatchOptions): Process['flavor'] {
  return flavor === 'gates' ? 'gate' : (flavor ?? 'always');
}

function initialOf({ initial }: StateOptions, width: number): Bits {
  const value = bitsOf(initial ?? 'x'.repeat(width));
  if (value.width !== width) throw new Error(`a start value of ${value.width} digits for ${width} bits`);
  return value;
}
