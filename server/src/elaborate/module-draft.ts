// One module with one set of parameters while it is being read: its names, what is left to do, and the nodes drafted
// so far. In the draft a signal is read as one `net` node of its whole width; which stretches have which driver is only
// known at the end, when `finish-template.ts` makes the real nodes.

import type { Limits } from '../budget';
import type { CheckKind, DelayTriple, ExplicitDelay, Latch, NodeId, Process } from '../netlist/netlist';
import type { Bits } from '../netlist/four-state';
import type { PackedForm } from '../netlist/packed-form';
import type { NodeBuilder } from '../netlist/node-builder';
import type { At, DelayTable, Expression, InstanceTable, Item, ModuleTable, Named } from '../syntax/tables';
import type { FunctionCall, Reader } from './algebra';
import type { ComplaintLog } from './complaint-log';
import type { ConstantValue } from './constant-value';
import type { Layer } from './environment';
import type { InstanceBelow } from './expression-context';
import type { InterfaceForm, Library } from './library';
import type { LocalSignal, SignalShape } from './local-signal';
import type { ArrayEntity, Entity, PackageState, ParameterEntity, RecordPart, Scope, SubroutineEntity } from './scope';
import type { Override } from './type-form';
import type { Failure } from './failure';
import type { Numbered } from './numbered';
import type { UnitSource } from './source';
import type { Import, Template } from './template';

export interface ModuleDraft {
  readonly source: UnitSource;
  readonly log: ComplaintLog;
  readonly library: Library;
  readonly limits: Limits;
  readonly moduleName: string;
  readonly table: ModuleTable;
  readonly nodes: NodeBuilder;
  readonly root: Scope;
  /** By name: those that this module has asked for. */
  readonly packages: Map<string, PackageState>;
  /** Scopes of instances below as functions called from here see them, by the instances on the way. */
  readonly seenBelow: Map<Scope, Map<string, Scope>>;
  /** By file: what stands outside every unit. */
  readonly outsides: Map<number, Scope | null>;
  readonly signals: LocalSignal[];
  /** Of loops, functions and tasks. */
  readonly privates: LocalSignal[];
  /** Variables of functions and tasks that are not automatic: they would keep their values from call to call. */
  readonly kept: Set<LocalSignal>;
  readonly arrays: { readonly array: ArrayEntity; readonly path: string }[];
  /** By signal: `#` of a net declaration without a value, which delays what its drivers resolve to. */
  readonly netDelays: Map<number, ScopedDelay>;
  readonly parameters: ParameterEntity[];
  readonly overrides: ReadonlyMap<string, Override>;
  readonly ports: PortDraft[];
  /** By port: the interfaces that the module's surroundings connect. */
  readonly interfaces: ReadonlyMap<string, InterfaceArgument>;
  /** Signals of interface ports that show their direction by who drives them; `modport`: the one that says input. */
  readonly undirected: { readonly signal: LocalSignal; readonly modport: string | null }[];
  readonly defparams: Defparam[];
  readonly children: ChildDraft[];
  readonly work: Work[];
  /** How many parameters are being worked out, one for the other. */
  readonly running: { count: number };
  readonly initializers: Initializer[];
  readonly imports: Numbered<Import>;
  readonly holds: Numbered<Hold>;
  readonly drivers: DriverDraft[];
  readonly processes: ProcessDraft[];
  readonly registers: RegisterDraft[];
  readonly latches: LatchDraft[];
  /** Targets of clocked processes that no rule gives a clock. */
  readonly unclocked: UnclockedDraft[];
  /** Signals that stimulus drives after time 0. */
  readonly stimulated: { readonly signal: number; readonly process: number; readonly at: At }[];
  /** Reads by edge lists and connections. */
  readonly otherReads: ReadLog;
  readonly pulls: PullDraft[];
  readonly blackBoxes: BlackBoxDraft[];
  readonly comparisons: ComparisonDraft[];
  readonly explicitDelays: Numbered<ExplicitDelay>;
  readonly specified: SpecifiedDraft;
  /** The limit of nodes has been met: what is left is unknown. */
  readonly isExhausted: { value: boolean };
  /** Functions and tasks being followed, one inside the other: how deep they stand, calls and statements so far. */
  readonly calls: { depth: number; count: number; readonly steps: { count: number } };
  /** The result of a function followed symbolically. `layer`: what stands assigned around the call. */
  followFunction(call: FunctionCall<NodeId>, reads: ReadLog, layer: Layer | null): NodeId;
  /** The same by IEEE 1364-2005 to the letter. `outside`: how names outside the function read. */
  runFunction(call: FunctionCall<Bits>, outside: Reader<Bits>): Bits;
  /** Follows what a scope imports. */
  declareImports(scope: Scope, items: readonly Item[]): void;
  /** What stands outside every unit in the file of a unit. */
  outside(unit: number): Scope | null;
  /** A function or task of an instance below, as this module may call it. */
  subroutineBelow(entity: SubroutineEntity, path: readonly number[], unit: number): SubroutineEntity;
  /** What pack::name means, in the scope that names it. */
  scoped(scope: Scope, from: Named, name: Named): Entity;
  /** The text of a file that the unit with this number names; null where it is not at hand. */
  dataFile(path: string, unit: number): string | null;
  below(child: number): InstanceBelow | null;
  /** Whether the name is a user-defined primitive's. */
  isPrimitive(module: string): boolean;
  /** Of a given module: the parameters that may be overridden, in order; null where it is not given. */
  parameterNames(module: string): readonly string[] | null;
  /** Those of them that are types. */
  typeParameters(module: string): readonly string[];
}

/** A value that `defparam` gives a parameter of an instance below. */
export interface Defparam {
  /** From the module down: `g[2].u.WIDTH`. */
  readonly path: string;
  readonly value: ConstantValue;
  /** Null where it was written further up. */
  readonly at: At | null;
  isUsed: boolean;
}

export interface ScopedDelay {
  readonly table: DelayTable;
  /** Where the names in it are looked up. */
  readonly scope: Scope;
}

/** A signal as one process keeps it. */
export interface Hold {
  readonly process: number;
  readonly signal: number;
}

/** Something that gives bits of a signal their value. */
export interface DriverDraft {
  readonly signal: number;
  readonly low: number;
  readonly width: number;
  readonly value: DriverValue;
  readonly process: number | null;
  readonly at: At;
  readonly canRelease: boolean;
  /** A plain continuous assignment or gate: names may be followed through it. */
  readonly isContinuous: boolean;
}

export type DriverValue =
  | { readonly kind: 'node'; readonly node: NodeId }
  | { readonly kind: 'register'; readonly register: RegisterDraft }
  | { readonly kind: 'latch'; readonly latch: LatchDraft }
  /** What the instance's surroundings give a port. */
  | { readonly kind: 'outside' };

/** Reads of signals from outside whoever reads, once each, in the order met. */
export interface ReadLog {
  readonly reads: BitsAt[];
  /** Which reads are recorded already. */
  readonly readKeys: Set<string>;
  /** Accesses to arrays at indices that vary, once each, in the order met. */
  readonly ports: MemoryPortDraft[];
  /** Signals read after the reader itself has assigned them: temporaries, if nothing else reads them. */
  readonly innerReads: Set<number>;
}

export interface MemoryPortDraft {
  readonly array: ArrayEntity;
  readonly kind: 'read' | 'write';
  readonly at: At;
}

export function notePort({ ports }: ReadLog, port: MemoryPortDraft): void {
  const isKnown = ports.some(({ array, kind, at }) => array === port.array && kind === port.kind && at === port.at);
  if (!isKnown) ports.push(port);
}

export interface ProcessDraft extends ReadLog {
  readonly index: number;
  readonly flavor: Process['flavor'];
  readonly at: At;
  kind: Process['kind'];
  readonly sensitivity: EdgeDraft[];
  implicitSensitivity: boolean;
  readonly assignments: AssignmentDraft[];
  /** The last one of each statement. */
  readonly lastAssignments: Map<At, AssignmentDraft>;
}

export interface EdgeDraft {
  readonly edge: 'posedge' | 'negedge' | null;
  /** Width 1 for an edge: the least significant bit. */
  readonly node: NodeId;
  readonly at: At;
}

export interface BitsAt {
  readonly signal: number;
  readonly low: number;
  readonly width: number;
  readonly at: At;
}

export interface AssignmentDraft extends BitsAt {
  readonly blocking: boolean;
  readonly path: Path | null;
  readonly delay: DelayTable | null;
  readonly scope: Scope;
}

/** The conditions on the way to a statement, innermost first. Worked out when asked for: few are. */
export interface Path {
  readonly outer: Path | null;
  /** As written. */
  text(): string;
  /** Width 1. */
  node(): NodeId;
  readonly at: At;
}

export interface ControlDraft {
  /** Width 1, as in the edge list. */
  readonly control: NodeId;
  readonly active: 'high' | 'low';
  readonly value: NodeId;
  readonly at: At;
}

export interface RegisterDraft {
  readonly signal: number;
  readonly low: number;
  readonly width: number;
  readonly clock: EdgeDraft;
  readonly asynchronous: readonly ControlDraft[];
  /** Controls that hold this register because their branch does not assign it. */
  readonly resetsInEnable: readonly Omit<ControlDraft, 'value'>[];
  readonly data: NodeId;
  readonly delay: ScopedDelay | null;
  readonly process: number;
  readonly sampleAt: At;
  readonly enables: readonly { readonly low: number; readonly width: number; readonly path: Path; readonly at: At }[];
}

export interface LatchDraft {
  readonly signal: number;
  readonly low: number;
  readonly width: number;
  readonly gate: NodeId;
  readonly active: 'high' | 'low';
  readonly asynchronous: readonly ControlDraft[];
  readonly data: NodeId;
  readonly process: number;
  /** Its first assignment. */
  readonly at: At;
  readonly holdAt: At;
  readonly flavor: Latch['flavor'];
  readonly othersComplete: boolean;
}

/** A pullup or pulldown gate on bits of a net. */
export interface PullDraft extends BitsAt {
  readonly kind: 'tri0' | 'tri1';
}

/** An instance of a module that is not given. Which pins drive is told when all drivers are known. */
export interface BlackBoxDraft {
  readonly module: string;
  readonly path: string;
  readonly at: At;
  readonly pins: readonly PinDraft[];
  /** Why a module that is given is not read; null for one that is not given. */
  readonly complaint: number | null;
}

export interface PinDraft {
  readonly name: string;
  readonly at: At;
  /** The value of what is connected. */
  readonly node: NodeId;
  readonly width: number;
  /** Net bits that are connected, most significant first; null where it cannot be driven (an expression, a variable). */
  readonly nets: readonly PortPart[] | null;
}

export interface UnclockedDraft {
  readonly signal: number;
  readonly process: number;
  readonly failure: Failure;
}

export interface ComparisonDraft {
  readonly node: NodeId;
  readonly value: 0 | 1;
  readonly at: At;
}

/** A port from outside: its name there, and the signal bits behind it, most significant first. */
export interface PortDraft {
  /** Null for a port that can only be connected by order. */
  readonly name: string | null;
  readonly at: At;
  readonly direction: 'input' | 'output' | 'inout';
  readonly parts: readonly PortPart[];
  readonly width: number;
  /** What an input is where the instance does not name it. */
  readonly preset?: Bits;
  /** Of a port whose value is no plain vector. */
  readonly form?: PackedForm;
  /** Of an interface: its signals. `element`: position in an array of interfaces, from the left. */
  readonly members?: readonly { readonly element: number; readonly path: string; readonly signal: LocalSignal }[];
}

/** What an instance's surroundings connect to an interface's port. */
export interface InterfaceArgument {
  readonly form: InterfaceForm;
  /** Of the connection. */
  readonly modport: string | null;
}

export interface PortPart {
  readonly signal: LocalSignal;
  readonly low: number;
  readonly width: number;
}

export interface ChildDraft {
  readonly index: number;
  /** From the module down: `g[2].u`, `u[3]`. */
  readonly path: string;
  readonly at: At;
  readonly scope: Scope;
  readonly item: Extract<Item, { kind: 'instances' }>;
  readonly table: InstanceTable;
  /** Position in an instance array, 0 = rightmost index, and how many there are. */
  readonly element: { readonly position: number; readonly count: number };
  readonly overrides: ReadonlyMap<string, Override>;
  /** Read before its parent's expressions; null: not given, or too deep. */
  template: Template | null;
  /** Why there is no template, where that is a complaint of this module; -1 for a module that is not given. */
  missing: number;
  /** Value of each input or inout signal of the child, by its number there. Absent: left open. */
  readonly inputs: Map<number, NodeId>;
}

/** What is left once names are known, in source order, each in its own scope. */
export type Work =
  | { readonly kind: 'item'; readonly item: ProcessItem; readonly scope: Scope }
  | {
      readonly kind: 'net-value';
      readonly scope: Scope;
      readonly signal: LocalSignal;
      readonly at: At;
      readonly value: Expression;
      readonly delay: DelayTable | null;
    }
  | { readonly kind: 'child'; readonly child: ChildDraft }
  /** A signal that something unreadable would have driven. */
  | { readonly kind: 'hole'; readonly signal: LocalSignal; readonly at: At; readonly complaint: number };

export type ProcessItem = Extract<Item, { kind: 'assign' | 'gate' | 'process' | 'specify' }>;

/** What specify blocks say, nodes drafted. */
export interface SpecifiedDraft {
  readonly paths: PathDraft[];
  readonly checks: CheckDraft[];
  readonly pulses: PulseDraft[];
  /** Signals whose pulses show as soon as they are known. */
  readonly onDetect: Set<number>;
  /** By signal that a check drives delayed: the number of its delay. */
  readonly delayed: Map<number, number>;
}

/** From one input to one output. */
export interface PathDraft {
  readonly from: NodeId;
  readonly to: { readonly signal: number; readonly low: number; readonly width: number };
  readonly full: boolean;
  readonly edge: 'posedge' | 'negedge' | null;
  readonly guard: 'none' | 'if' | 'ifnone';
  /** Width 1. */
  readonly condition: NodeId | null;
  readonly delays: readonly DelayTriple[];
  /** As written, for PATHPULSE$. */
  readonly names: { readonly from: string; readonly to: string };
  readonly at: At;
}

export interface CheckDraft {
  readonly kind: CheckKind;
  readonly reference: CheckEventDraft;
  readonly data: CheckEventDraft | null;
  readonly limits: readonly DelayTriple[];
  readonly at: At;
}

export interface CheckEventDraft {
  readonly node: NodeId;
  readonly edges: readonly string[];
  readonly condition: NodeId | null;
  readonly at: At;
}

export interface PulseDraft {
  /** Null: of every path of the module. */
  readonly between: { readonly from: string; readonly to: string } | null;
  readonly reject: DelayTriple;
  readonly error: DelayTriple;
}

/** A value in a variable's declaration: its start value (IEEE 1364-2005 6.2.1). */
export interface Initializer {
  /** A structure has several. */
  readonly parts: readonly RecordPart[];
  /** Of all of them together. */
  readonly form: PackedForm;
  readonly scope: Scope;
  readonly value: Expression;
}

/** Private signals are numbered from here on: those that are listed have numbers without gaps. */
const firstPrivate = 2 ** 30;

export function signalAt({ signals, privates }: Pick<ModuleDraft, 'signals' | 'privates'>, index: number): LocalSignal {
  return index < firstPrivate ? signals[index] : privates[index - firstPrivate];
}

export interface NewSignal {
  readonly scope: Scope;
  readonly name: string;
  readonly at: At;
  readonly shape: SignalShape;
  readonly port: LocalSignal['port'];
  /** Of a loop or an early exit; what a function or task declares is private by its scope. */
  readonly isPrivate: boolean;
}

export function addSignal(draft: ModuleDraft, added: NewSignal): LocalSignal {
  const signal = createSignal(draft, added);
  added.scope.names.set(added.name, signal);
  return signal;
}

/** One that no name of the scope means by itself. */
export function createSignal(draft: ModuleDraft, { scope, name, at, shape, port, isPrivate }: NewSignal): LocalSignal {
  const hidden = isPrivate || scope.isPrivate;
  const list = hidden ? draft.privates : draft.signals;
  const signal: LocalSignal = {
    kind: 'signal',
    index: hidden ? firstPrivate + list.length : list.length,
    path: `${scope.prefix}${name}`,
    name,
    at,
    shape,
    port,
    isPrivate: hidden,
    isJoined: false,
    draft: null,
  };
  list.push(signal);
  return signal;
}
