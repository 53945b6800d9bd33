// Netlists by hand, for tests of the rooms that read them: what the elaborator would make of a small circuit, without
// any text. Dotted names make instances. Whatever is given as a function is asked for at `build`, so that registers
// may read what is declared after them. Places are made up: one per declared thing, in order of declaration.

import { budget, limitDefaults } from '../../server/src/budget';
import type {
  BlackBox,
  BlackBoxPin,
  DelayTriple,
  ExplicitDelay,
  InstanceId,
  Netlist,
  ResolutionKind,
} from '../../server/src/netlist/netlist';
import { createNodeBuilder, type NodeBuilder } from '../../server/src/netlist/node-builder';
import { Op, type OpCode } from '../../server/src/netlist/operators';
import { createPlaces, createScopes } from './circuit-places';
import { createProcesses } from './circuit-processes';
import { createSignals } from './circuit-signals';
import { createState } from './circuit-state';
import {
  type Declaration,
  type DelayOption,
  type LatchOptions,
  type Later,
  nodeOf,
  type RegisterSlice,
  type Wire,
  widthOf,
} from './circuit-types';
import { createWires, type Wires, wireOf } from './circuit-wires';

// Tests need the types of what they pass around, from the one file they know.
export type {
  AsynchronousOption,
  Declaration,
  DelayOption,
  LatchOptions,
  Later,
  RegisterSlice,
  Wire,
} from './circuit-types';

export interface Circuit extends Wires {
  readonly builder: NodeBuilder;
  /** States the module of an instance; where not stated it is the instance's own name. */
  instance(path: string, module: string): void;
  input(name: string, declaration?: Declaration): Wire;
  inout(name: string, declaration?: Declaration): Wire;
  /** A net with one driver: `assign name = driver`, or a port's connection. */
  net(name: string, driver: Later, declaration?: Declaration): Wire;
  /** As `net`, a port of the top. */
  output(name: string, driver: Later, declaration?: Declaration): Wire;
  /** A net that nothing drives. */
  undriven(name: string, declaration?: Declaration): Wire;
  /** A net with several drivers. */
  wired(name: string, kind: ResolutionKind, drivers: readonly Wire[], declaration?: Declaration): Wire;
  /** A signal that is one register. */
  register(name: string, options: Declaration & RegisterSlice): Wire;
  /** A signal whose slices are clocked apart; they cover it, in any order. */
  registers(name: string, declaration: Declaration, slices: readonly RegisterSlice[]): Wire;
  latch(name: string, options: LatchOptions): Wire;
  /** An instance of a module that is not given. The result has its outputs by pin. */
  blackBox(
    instance: string,
    module: string,
    pins: { readonly inputs?: Readonly<Record<string, Wire>>; readonly outputs?: Readonly<Record<string, number>> },
  ): Readonly<Record<string, Wire>>;
  /** `#delay` around a wire. */
  delayed(wire: Wire, delay: DelayOption): Wire;
  build(): Netlist;
}

export interface BlackBoxPins {
  readonly inputs?: Readonly<Record<string, Wire>>;
  /** Widths. */
  readonly outputs?: Readonly<Record<string, number>>;
}

export function circuit(topModule = 'top'): Circuit {
  const builder = createNodeBuilder(budget(limitDefaults, 'nodes'));
  const places = createPlaces();
  const scopes = createScopes(topModule, places);
  const wires = createWires(builder, places);
  const signals = createSignals(builder, places, scopes);
  const processes = createProcesses(scopes);
  const explicitDelays: ExplicitDelay[] = [];
  const blackBoxes: BlackBox[] = [];
  const blackBoxOutputs: { box: number; pin: number }[] = [];
  const sharedDrivers: Netlist['sharedDrivers'][number][] = [];
  const waiting: (() => void)[] = [];
  const atBuild = (finish: () => void) => waiting.push(finish);
  const addDelay = (delay: DelayOption) => explicitDelays.push(explicitDelay(delay, places.next('#'))) - 1;
  const state = createState({
    builder,
    places,
    scopes,
    signals,
    processes,
    addDelay,
    constant: wires.constant,
    atBuild,
  });

  function addSource(name: string, declaration: Declaration, op: OpCode): Wire {
    const width = widthOf(declaration);
    const { id, place, nets, whole } = signals.declare(name, declaration, 'wire', [{ low: 0, width }]);
    builder.drive(nets[0], builder.add(op, width, [], id, place));
    return whole;
  }

  function addNet(name: string, driver: Later, declaration: Declaration): Wire {
    const width = typeof driver === 'function' ? widthOf(declaration) : driver.width;
    const { id, place, nets, whole } = signals.declare(name, declaration, 'wire', [{ low: 0, width }]);
    const process = processes.add(name, undefined, { kind: 'combinational', flavor: 'assign' }, place);
    const assignment = { signal: id, low: 0, width, blocking: true, place };
    processes.amend(process, { sensitivity: [], assignments: [assignment] });
    if (typeof driver === 'function') atBuild(() => builder.drive(nets[0], driver(whole).node));
    else builder.drive(nets[0], driver.node);
    return whole;
  }

  function addWired(name: string, kind: ResolutionKind, drivers: readonly Wire[], declaration: Declaration): Wire {
    const { width } = drivers[0];
    const { id, place, nets, whole } = signals.declare(name, declaration, kind, [{ low: 0, width }]);
    const resolution = builder.addResolution(kind, id);
    builder.drive(nets[0], builder.add(Op.resolve, width, drivers.map(nodeOf), resolution, place));
    const stretch = { signal: id, low: 0, width };
    const listed = drivers.map(({ node }) => ({
      ...stretch,
      node,
      process: null,
      place,
      canRelease: builder.nodes.op[node] === Op.tristate,
    }));
    if (drivers.length > 1) sharedDrivers.push({ ...stretch, drivers: listed });
    return whole;
  }

  function addBlackBox(instance: string, module: string, pins: BlackBoxPins): Readonly<Record<string, Wire>> {
    const place = places.next(instance);
    const box = blackBoxes.length;
    const inputs = Object.entries(pins.inputs ?? {}).map(
      ([name, { node }]): BlackBoxPin => ({ name, direction: 'input', node, output: -1, place }),
    );
    const outputs = Object.entries(pins.outputs ?? {}).map(([name, width], index): BlackBoxPin => {
      const output = blackBoxOutputs.push({ box, pin: inputs.length + index }) - 1;
      return { name, direction: 'output', node: builder.add(Op.blackBox, width, [], output, place), output, place };
    });
    const parent = scopes.instanceOf(instance);
    blackBoxes.push({ id: box, module, instance, parent, place, pins: [...inputs, ...outputs] });
    return Object.fromEntries(outputs.map(({ name, node }) => [name, wireOf(builder, places, node)]));
  }

  return {
    ...wires,
    builder,
    instance: scopes.declare,
    input: (name, declaration = {}) => addSource(name, { ...declaration, port: 'input' }, Op.input),
    inout: (name, declaration = {}) => addSource(name, { ...declaration, port: 'inout' }, Op.input),
    net: (name, driver, declaration = {}) => addNet(name, driver, declaration),
    output: (name, driver, declaration = {}) => addNet(name, driver, { ...declaration, port: 'output' }),
    undriven: (name, declaration = {}) => addSource(name, declaration, Op.undriven),
    wired: (name, kind, drivers, declaration = {}) => addWired(name, kind, drivers, declaration),
    register: (name, options) => state.addRegisters(name, options, [options]),
    registers: state.addRegisters,
    latch: state.addLatch,
    blackBox: addBlackBox,
    delayed: (only, delay) => wires.operator(Op.delay, only.width, [only], addDelay(delay)),
    build() {
      for (const finish of waiting.splice(0)) finish();
      return {
        top: 0 as InstanceId,
        nodes: builder.columns(),
        constants: builder.constants,
        places: builder.places,
        instances: scopes.instances(),
        signals: signals.signals,
        pieces: signals.pieces,
        registers: state.registers,
        latches: state.latches,
        memories: [],
        blackBoxes,
        blackBoxOutputs,
        processes: processes.processes,
        explicitDelays,
        resolutions: builder.resolutions,
        caseWildcards: builder.caseWildcards,
        sharedDrivers,
        fixedComparisons: [],
      };
    },
  };
}

function explicitDelay(delay: DelayOption, place: ExplicitDelay['place']): ExplicitDelay {
  const { rise, fall, toZ } = typeof delay === 'number' ? { rise: delay, fall: delay, toZ: delay } : delay;
  const directions = { rise: tripleOf(rise), fall: tripleOf(fall) };
  return { ...directions, toZ: toZ === undefined ? smaller(directions.rise, directions.fall) : tripleOf(toZ), place };
}

function tripleOf(delay: number | DelayTriple): DelayTriple {
  return typeof delay === 'number' ? { min: delay, typ: delay, max: delay } : delay;
}

function smaller(left: DelayTriple, right: DelayTriple): DelayTriple {
  return {
    min: Math.min(left.min, right.min),
    typ: Math.min(left.typ, right.typ),
    max: Math.min(left.max, right.max),
  };
}
