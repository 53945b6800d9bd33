// Netlists by hand, for tests of the rooms that read them: what the elaborator would make of a small circuit, without
// any text. Dotted names make instances. Whatever is given as a function is asked for at `build`, so that registers
// may read what is declared after them. Places are made up: one per declared thing, in order of declaration.

import { budget, limitDefaults } from '../../server/src/budget';
import { type Bits, bitsOf } from '../../server/src/netlist/four-state';
import type {
  AsynchronousControl,
  Bit,
  BlackBox,
  BlackBoxPin,
  DelayTriple,
  EdgeKind,
  EnableRegion,
  ExplicitDelay,
  Instance,
  InstanceId,
  Latch,
  LatchId,
  NetPiece,
  NetPieceId,
  Netlist,
  NodeId,
  Process,
  ProcessId,
  Register,
  RegisterId,
  ResolutionKind,
  Signal,
  SignalId,
} from '../../server/src/netlist/netlist';
import { createNodeBuilder, type NodeBuilder } from '../../server/src/netlist/node-builder';
import {
  concatOf,
  extendTo,
  type GateOp,
  gateOf,
  muxOf,
  selectOf,
  sliceOf,
} from '../../server/src/netlist/node-makers';
import { Op, type OpCode } from '../../server/src/netlist/operators';
import type { Place, UnitOffset } from '../../server/src/text/place';

/** A node with its width. `bit` and `bits` count from 0 = least significant, whatever a signal's declared indices. */
export interface Wire {
  readonly node: NodeId;
  readonly width: number;
  bit(index: number): Wire;
  bits(high: number, low: number): Wire;
}

/** A wire, or how to make it from the whole signal being declared, once everything is declared. */
export type Later = Wire | ((self: Wire) => Wire);

export interface Declaration {
  readonly width?: number;
  /** Declared indices; [width-1:0] where not given, none for width 1. */
  readonly range?: readonly [msb: number, lsb: number];
  readonly signed?: boolean;
  readonly port?: 'input' | 'output' | 'inout';
}

export interface AsynchronousOption {
  readonly control: Later;
  readonly active: 'high' | 'low';
  /** Digits, or what is loaded. */
  readonly value: string | Later;
}

interface StateOptions {
  readonly asynchronous?: readonly AsynchronousOption[];
  /** Digits of the slice's width; all x where not given. */
  readonly initial?: string;
  /** Slices with the same word stand in one process; a process of its own where not given. */
  readonly process?: string;
}

export interface RegisterSlice extends StateOptions {
  /** Lowest bit, 0 where not given. */
  readonly low?: number;
  /** Width of the slice; the signal's where not given. */
  readonly width?: number;
  readonly clock: Later;
  /** rising where not given */
  readonly edge?: EdgeKind;
  readonly clockText?: string;
  readonly data: Later;
  /** Clock-to-output delay in the text. */
  readonly delay?: DelayOption;
  readonly enables?: readonly {
    readonly condition: Later;
    readonly text?: string;
    readonly low?: number;
    readonly width?: number;
  }[];
}

export interface LatchOptions extends Declaration, StateOptions {
  readonly gate: Later;
  /** high where not given */
  readonly active?: 'high' | 'low';
  readonly data: Later;
  readonly flavor?: Latch['flavor'];
  readonly othersComplete?: boolean;
}

/** ps: one number for all, or per direction; a number stands for min, typ and max. */
export type DelayOption =
  | number
  | { readonly rise: number | DelayTriple; readonly fall: number | DelayTriple; readonly toZ?: number | DelayTriple };

export interface Circuit {
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

  constant(digits: string): Wire;
  concat(...parts: Wire[]): Wire;
  zeroExtend(wire: Wire, width: number): Wire;
  signExtend(wire: Wire, width: number): Wire;
  not(wire: Wire): Wire;
  buf(wire: Wire): Wire;
  and(...wires: Wire[]): Wire;
  nand(...wires: Wire[]): Wire;
  or(...wires: Wire[]): Wire;
  nor(...wires: Wire[]): Wire;
  xor(...wires: Wire[]): Wire;
  xnor(...wires: Wire[]): Wire;
  tristate(data: Wire, enable: Wire): Wire;
  add(left: Wire, right: Wire): Wire;
  subtract(left: Wire, right: Wire): Wire;
  /** One more, in the same width. */
  increment(wire: Wire): Wire;
  equal(left: Wire, right: Wire): Wire;
  notEqual(left: Wire, right: Wire): Wire;
  less(left: Wire, right: Wire): Wire;
  reduceAnd(wire: Wire): Wire;
  reduceOr(wire: Wire): Wire;
  reduceXor(wire: Wire): Wire;
  mux(select: Wire, whenOne: Wire, whenZero: Wire): Wire;
  /** Labels as digits, `?` a wildcard. */
  select(selector: Wire, arms: Readonly<Record<string, Wire>>, otherwise: Wire): Wire;
  /** `#delay` around a wire. */
  delayed(wire: Wire, delay: DelayOption): Wire;
  /** Any operator, by its number. */
  operator(op: OpCode, width: number, operands: readonly Wire[], aux?: number): Wire;
  build(): Netlist;
}

export function circuit(topModule = 'top'): Circuit {
  const builder = createNodeBuilder(budget(limitDefaults, 'nodes'));
  const places = createPlaces();
  const scopes = createScopes(topModule, places);
  const signals: Signal[] = [];
  const pieces: NetPiece[] = [];
  const registers: (Register | null)[] = [];
  const latches: (Latch | null)[] = [];
  const processes: Process[] = [];
  const processByWord = new Map<string, ProcessId>();
  const explicitDelays: ExplicitDelay[] = [];
  const blackBoxes: BlackBox[] = [];
  const blackBoxOutputs: { box: number; pin: number }[] = [];
  const sharedDrivers: Netlist['sharedDrivers'][number][] = [];
  const atBuild: (() => void)[] = [];

  const wire = (node: NodeId): Wire => ({
    node,
    width: builder.nodes.width[node],
    bit: (index) => wire(sliceOf(builder, node, index, 1, places.current)),
    bits: (high, low) => wire(sliceOf(builder, node, low, high - low + 1, places.current)),
  });
  const gate = (op: GateOp, wires: readonly Wire[]) => wire(gateOf(builder, op, wires.map(nodeOf), places.current));
  const operator = (op: OpCode, width: number, operands: readonly Wire[], aux = 0) =>
    wire(builder.add(op, width, operands.map(nodeOf), aux, places.current));
  const constant = (digits: string) => wire(builder.constant(bitsOf(digits), places.current));

  /** Declares a signal out of stretches, least significant first; each gets a net that waits for its driver. */
  function declare(name: string, declaration: Declaration, type: string, stretches: readonly Stretch[]): Declared {
    const place = places.next(name);
    const id = signals.length as SignalId;
    const nets = stretches.map(({ low, width }) => {
      const piece = pieces.length as NetPieceId;
      const node = builder.net(piece, width, place);
      pieces.push({ id: piece, signal: id, low, width, node });
      return node;
    });
    const width = stretches.reduce((sum, stretch) => sum + stretch.width, 0);
    const node = concatOf(builder, nets.slice().reverse(), place);
    const [msb, lsb] = declaration.range ?? [width - 1, 0];
    signals.push({
      id,
      name,
      localName: name.slice(name.lastIndexOf('.') + 1),
      instance: scopes.instanceOf(name),
      width,
      msb,
      lsb,
      scalar: width === 1 && declaration.range === undefined,
      signed: declaration.signed ?? false,
      kind: type === 'reg' ? 'variable' : 'net',
      type,
      port: declaration.port ?? null,
      node,
      pieces: nets.map((net) => builder.nodes.aux[net] as NetPieceId),
      place,
    });
    return { id, place, nets, whole: wire(node) };
  }

  function declareWhole(name: string, width: number, declaration: Declaration, type: string): Declared {
    return declare(name, declaration, type, [{ low: 0, width }]);
  }

  function source(name: string, declaration: Declaration, op: OpCode): Wire {
    const width = widthOf(declaration);
    const { id, place, nets, whole } = declareWhole(name, width, declaration, 'wire');
    builder.drive(nets[0], builder.add(op, width, [], id, place));
    return whole;
  }

  function processOf(
    word: string | undefined,
    name: string,
    kind: Process['kind'],
    flavor: Process['flavor'],
    place: Place,
  ) {
    const known = word === undefined ? undefined : processByWord.get(word);
    if (known !== undefined) return known;
    const id = processes.length as ProcessId;
    const instance = scopes.instanceOf(name);
    const implicitSensitivity = kind === 'combinational';
    processes.push({
      id,
      instance,
      flavor,
      place,
      kind,
      sensitivity: [],
      implicitSensitivity,
      reads: [],
      assignments: [],
    });
    if (word !== undefined) processByWord.set(word, id);
    return id;
  }

  function amendProcess(id: ProcessId, changes: Pick<Process, 'sensitivity' | 'assignments'>): void {
    const old = processes[id];
    const fresh = changes.sensitivity.filter(({ node, edge }) =>
      old.sensitivity.every((known) => known.node !== node || known.edge !== edge),
    );
    processes[id] = {
      ...old,
      sensitivity: [...old.sensitivity, ...fresh],
      assignments: [...old.assignments, ...changes.assignments],
    };
  }

  function net(name: string, driver: Later, declaration: Declaration): Wire {
    const width = typeof driver === 'function' ? widthOf(declaration) : driver.width;
    const { id, place, nets, whole } = declareWhole(name, width, declaration, 'wire');
    const process = processOf(undefined, name, 'combinational', 'assign', place);
    amendProcess(process, { sensitivity: [], assignments: [{ signal: id, low: 0, width, blocking: true, place }] });
    if (typeof driver === 'function') atBuild.push(() => builder.drive(nets[0], driver(whole).node));
    else builder.drive(nets[0], driver.node);
    return whole;
  }

  function wired(name: string, kind: ResolutionKind, drivers: readonly Wire[], declaration: Declaration): Wire {
    const { width } = drivers[0];
    const { id, place, nets, whole } = declareWhole(name, width, declaration, kind);
    const resolution = builder.addResolution(kind, id);
    builder.drive(nets[0], builder.add(Op.resolve, width, drivers.map(nodeOf), resolution, place));
    const listed = drivers.map(({ node }) => ({
      signal: id,
      low: 0,
      width,
      node,
      process: null,
      place,
      canRelease: builder.nodes.op[node] === Op.tristate,
    }));
    if (drivers.length > 1) sharedDrivers.push({ signal: id, low: 0, width, drivers: listed });
    return whole;
  }

  function registerSlices(name: string, declaration: Declaration, slices: readonly RegisterSlice[]): Wire {
    const total = widthOf(declaration);
    const ordered = slices
      .map((slice) => ({ slice, low: slice.low ?? 0, width: slice.width ?? total }))
      .sort((left, right) => left.low - right.low);
    const declared = declare(name, declaration, 'reg', ordered);
    ordered.forEach(({ slice, low, width }, index) => {
      const id = registers.length as RegisterId;
      registers.push(null);
      const node = builder.add(Op.register, width, [], id, declared.place);
      builder.drive(declared.nets[index], node);
      const process = processOf(slice.process, name, 'clocked', 'always', declared.place);
      const samplePlace = places.next(`${name} <=`);
      atBuild.push(() => {
        const at = { id, signal: declared.id, low, width, node, process, place: declared.place, samplePlace };
        registers[id] = finishRegister(name, declared, slice, at);
      });
    });
    return declared.whole;
  }

  type RegisterPart = Pick<Register, 'id' | 'signal' | 'low' | 'width' | 'node' | 'process' | 'place' | 'samplePlace'>;

  function finishRegister(name: string, declared: Declared, slice: RegisterSlice, part: RegisterPart): Register {
    const now = (later: Later) => (typeof later === 'function' ? later(declared.whole) : later);
    const clockWire = now(slice.clock);
    const edge = slice.edge ?? 'rising';
    const clockPlace = places.next(`@ ${name}`);
    const clockText = slice.clockText ?? nameOfBit(bitOf(clockWire)) ?? 'clock';
    const asynchronous = finishControls(slice.asynchronous, part.width, now);
    amendProcess(part.process, {
      sensitivity: [
        { edge: edge === 'rising' ? 'posedge' : 'negedge', node: clockWire.node, text: clockText, place: clockPlace },
        ...asynchronous.map(({ control, active, place }) => ({
          edge: active === 'high' ? ('posedge' as const) : ('negedge' as const),
          node: control.node,
          text: nameOfBit(control) ?? 'control',
          place,
        })),
      ],
      assignments: [
        { signal: part.signal, low: part.low, width: part.width, blocking: false, place: part.samplePlace },
      ],
    });
    return {
      ...part,
      clock: bitOf(clockWire),
      edge,
      clockText,
      clockPlace,
      asynchronous,
      data: now(slice.data).node,
      delay: slice.delay === undefined ? -1 : addDelay(slice.delay),
      initial: initialOf(slice, part.width),
      initialPlace: slice.initial === undefined ? null : places.next(`initial ${name}`),
      instance: scopes.instanceOf(name),
      enables: (slice.enables ?? []).map((enable): EnableRegion => {
        const condition = now(enable.condition);
        const text = enable.text ?? nameOfBit(bitOf(condition)) ?? 'enable';
        const low = enable.low ?? 0;
        return {
          low,
          width: enable.width ?? part.width - low,
          condition: condition.node,
          text,
          place: places.next(text),
        };
      }),
    };
  }

  function finishControls(
    controls: readonly AsynchronousOption[] | undefined,
    width: number,
    now: (later: Later) => Wire,
  ): AsynchronousControl[] {
    return (controls ?? []).map(({ control, active, value }) => {
      const loaded = typeof value === 'string' ? constant(value) : now(value);
      if (loaded.width !== width) throw new Error(`an asynchronous value of ${loaded.width} bits for ${width}`);
      return { control: bitOf(now(control)), active, value: loaded.node, place: places.next('control') };
    });
  }

  function latch(name: string, options: LatchOptions): Wire {
    const width = widthOf(options);
    const declared = declareWhole(name, width, options, 'reg');
    const id = latches.length as LatchId;
    latches.push(null);
    const node = builder.add(Op.latch, width, [], id, declared.place);
    builder.drive(declared.nets[0], node);
    const process = processOf(options.process, name, 'latch', latchFlavor(options.flavor), declared.place);
    const holdPlace = places.next(`hold ${name}`);
    const now = (later: Later) => (typeof later === 'function' ? later(declared.whole) : later);
    atBuild.push(() => {
      latches[id] = {
        id,
        signal: declared.id,
        low: 0,
        width,
        node,
        gate: bitOf(now(options.gate)),
        active: options.active ?? 'high',
        asynchronous: finishControls(options.asynchronous, width, now),
        data: now(options.data).node,
        initial: initialOf(options, width),
        process,
        instance: scopes.instanceOf(name),
        place: declared.place,
        holdPlace,
        flavor: options.flavor ?? 'always',
        othersComplete: options.othersComplete ?? false,
      };
    });
    return declared.whole;
  }

  function blackBox(instance: string, module: string, pins: Parameters<Circuit['blackBox']>[2]) {
    const place = places.next(instance);
    const box = blackBoxes.length;
    const inputs = Object.entries(pins.inputs ?? {}).map(
      ([name, { node }]): BlackBoxPin => ({ name, direction: 'input', node, output: -1, place }),
    );
    const outputs = Object.entries(pins.outputs ?? {}).map(([name, width], index): BlackBoxPin => {
      const output = blackBoxOutputs.push({ box, pin: inputs.length + index }) - 1;
      return { name, direction: 'output', node: builder.add(Op.blackBox, width, [], output, place), output, place };
    });
    blackBoxes.push({
      id: box,
      module,
      instance,
      parent: scopes.instanceOf(instance),
      place,
      pins: [...inputs, ...outputs],
    });
    return Object.fromEntries(outputs.map(({ name, node }) => [name, wire(node)]));
  }

  function addDelay(delay: DelayOption): number {
    const { rise, fall, toZ } = typeof delay === 'number' ? { rise: delay, fall: delay, toZ: delay } : delay;
    const [riseTriple, fallTriple] = [tripleOf(rise), tripleOf(fall)];
    const toZTriple = toZ === undefined ? smallest(riseTriple, fallTriple) : tripleOf(toZ);
    return explicitDelays.push({ rise: riseTriple, fall: fallTriple, toZ: toZTriple, place: places.next('#') }) - 1;
  }

  /** The bit that a 1-bit wire is; a bit of a slice is that of the node sliced, as the elaborator gives it. */
  function bitOf({ node, width }: Wire): Bit {
    if (width !== 1) throw new Error(`a bit was asked for, ${width} bits were given`);
    const { nodes } = builder;
    if (nodes.op[node] !== Op.slice) return { node, bit: 0 };
    return { node: nodes.pool[nodes.first[node]] as NodeId, bit: nodes.aux[node] };
  }

  function nameOfBit({ node, bit }: Bit): string | null {
    if (builder.nodes.op[node] !== Op.net) return null;
    const piece = pieces[builder.nodes.aux[node]];
    const signal = signals[piece.signal];
    const index = piece.low + bit;
    if (signal.scalar) return signal.localName;
    return `${signal.localName}[${signal.msb >= signal.lsb ? signal.lsb + index : signal.lsb - index}]`;
  }

  function selectArms(selector: Wire, arms: Readonly<Record<string, Wire>>, otherwise: Wire): Wire {
    const labels = Object.keys(arms);
    const masks = labels.map((label) => bitsOf(label.replace(/[^?]/g, '0').replace(/\?/g, '1')));
    const wildcards = labels.some((label) => label.includes('?')) ? builder.addWildcards(masks) : -1;
    const pairs = labels.map((label) => ({ label: constant(label.replace(/\?/g, '0')).node, value: arms[label].node }));
    return wire(selectOf(builder, selector.node, pairs, otherwise.node, wildcards, places.current));
  }

  return {
    builder,
    instance: scopes.declare,
    input: (name, declaration = {}) => source(name, { ...declaration, port: 'input' }, Op.input),
    inout: (name, declaration = {}) => source(name, { ...declaration, port: 'inout' }, Op.input),
    net: (name, driver, declaration = {}) => net(name, driver, declaration),
    output: (name, driver, declaration = {}) => net(name, driver, { ...declaration, port: 'output' }),
    undriven: (name, declaration = {}) => source(name, declaration, Op.undriven),
    wired: (name, kind, drivers, declaration = {}) => wired(name, kind, drivers, declaration),
    register: (name, options) => registerSlices(name, options, [options]),
    registers: registerSlices,
    latch,
    blackBox,
    constant,
    concat: (...parts) => wire(concatOf(builder, parts.map(nodeOf), places.current)),
    zeroExtend: ({ node }, width) => wire(extendTo(builder, node, width, 'zero', places.current)),
    signExtend: ({ node }, width) => wire(extendTo(builder, node, width, 'sign', places.current)),
    not: (only) => gate(Op.not, [only]),
    buf: (only) => gate(Op.buf, [only]),
    and: (...wires) => gate(Op.and, wires),
    nand: (...wires) => gate(Op.nand, wires),
    or: (...wires) => gate(Op.or, wires),
    nor: (...wires) => gate(Op.nor, wires),
    xor: (...wires) => gate(Op.xor, wires),
    xnor: (...wires) => gate(Op.xnor, wires),
    tristate: (data, enable) => operator(Op.tristate, data.width, [data, enable]),
    add: (left, right) => operator(Op.add, left.width, [left, right]),
    subtract: (left, right) => operator(Op.subtract, left.width, [left, right]),
    increment: (only) => operator(Op.add, only.width, [only, constant(`${'0'.repeat(only.width - 1)}1`)]),
    equal: (left, right) => operator(Op.equal, 1, [left, right]),
    notEqual: (left, right) => operator(Op.notEqual, 1, [left, right]),
    less: (left, right) => operator(Op.lessUnsigned, 1, [left, right]),
    reduceAnd: (only) => operator(Op.reduceAnd, 1, [only]),
    reduceOr: (only) => operator(Op.reduceOr, 1, [only]),
    reduceXor: (only) => operator(Op.reduceXor, 1, [only]),
    mux: (select, whenOne, whenZero) => wire(muxOf(builder, select.node, whenOne.node, whenZero.node, places.current)),
    select: selectArms,
    delayed: (only, delay) => operator(Op.delay, only.width, [only], addDelay(delay)),
    operator,
    build() {
      for (const finish of atBuild.splice(0)) finish();
      return {
        top: 0 as InstanceId,
        nodes: builder.columns(),
        constants: builder.constants,
        places: builder.places,
        instances: scopes.instances(),
        signals,
        pieces,
        registers: registers as Register[],
        latches: latches as Latch[],
        memories: [],
        blackBoxes,
        blackBoxOutputs,
        processes,
        explicitDelays,
        resolutions: builder.resolutions,
        caseWildcards: builder.caseWildcards,
        sharedDrivers,
        fixedComparisons: [],
      };
    },
  };
}

interface Stretch {
  readonly low: number;
  readonly width: number;
}

interface Declared {
  readonly id: SignalId;
  readonly place: Place;
  readonly nets: readonly NodeId[];
  readonly whole: Wire;
}

function nodeOf(wire: Wire): NodeId {
  return wire.node;
}

function widthOf({ width, range }: Declaration): number {
  return width ?? (range === undefined ? 1 : Math.abs(range[0] - range[1]) + 1);
}

function initialOf({ initial }: StateOptions, width: number): Bits {
  const value = bitsOf(initial ?? 'x'.repeat(width));
  if (value.width !== width) throw new Error(`a start value of ${value.width} digits for ${width} bits`);
  return value;
}

function tripleOf(delay: number | DelayTriple): DelayTriple {
  return typeof delay === 'number' ? { min: delay, typ: delay, max: delay } : delay;
}

function smallest(left: DelayTriple, right: DelayTriple): DelayTriple {
  return {
    min: Math.min(left.min, right.min),
    typ: Math.min(left.typ, right.typ),
    max: Math.min(left.max, right.max),
  };
}

function latchFlavor(flavor: Latch['flavor'] | undefined): Process['flavor'] {
  return flavor === 'gates' ? 'gate' : (flavor ?? 'always');
}

/** Places in order of declaration, a hundred characters apart. `current` is the last one given. */
function createPlaces() {
  let count = 0;
  let current: Place = placeAt(0, 3);
  return {
    get current() {
      return current;
    },
    next(text: string): Place {
      count += 1;
      current = placeAt(count * 100, text.length);
      return current;
    },
  };
}

function placeAt(start: number, length: number): Place {
  return { unit: 0, start: start as UnitOffset, end: (start + length) as UnitOffset };
}

/** The instances that dotted names ask for, parents before children. */
function createScopes(topModule: string, places: { next(text: string): Place }) {
  const instances: { -readonly [Name in keyof Instance]: Instance[Name] }[] = [];
  const byPath = new Map<string, InstanceId>();

  function add(path: string, module: string): InstanceId {
    const known = byPath.get(path);
    if (known !== undefined) return known;
    const parent = path === '' ? null : instanceOf(path);
    const id = instances.length as InstanceId;
    instances.push({ id, path, module, parent, place: places.next(path), children: [], parameters: [] });
    byPath.set(path, id);
    if (parent !== null) instances[parent].children = [...instances[parent].children, id];
    return id;
  }

  /** The instance in which a dotted name is declared. */
  function instanceOf(name: string): InstanceId {
    const path = name.includes('.') ? name.slice(0, name.lastIndexOf('.')) : '';
    return add(path, path.slice(path.lastIndexOf('.') + 1));
  }

  add('', topModule);
  return {
    declare(path: string, module: string): void {
      instances[add(path, module)].module = module;
    },
    instanceOf,
    instances: (): readonly Instance[] => instances,
  };
}
