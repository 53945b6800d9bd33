// The circuit as plain data: columns of nodes, and objects for what a person can name. Immutable once built.
// Every node has a width; node bits are numbered from 0 = least significant. A `Bit` names one of them.
// Feedback runs only through registers, latches, memories, and (for combinational loops) through `net` nodes.

import type { Place } from '../text/place';
import type { Bits } from './four-state';
import type { MemoryContents } from './memory-contents';
import type { Enumeration, PackedForm } from './packed-form';

export type NodeId = number & { readonly nodeId: unique symbol };
export type SignalId = number & { readonly signalId: unique symbol };
export type RegisterId = number & { readonly registerId: unique symbol };
export type LatchId = number & { readonly latchId: unique symbol };
export type InstanceId = number & { readonly instanceId: unique symbol };
export type ProcessId = number & { readonly processId: unique symbol };

/** One bit of a node, 0 = least significant. */
export interface Bit {
  readonly node: NodeId;
  readonly bit: number;
}

/** Parallel columns indexed by node. Operands of node n: pool[first[n]] … pool[first[n] + arity[n] - 1]. */
export interface NodeColumns {
  readonly count: number;
  readonly op: Uint8Array;
  readonly width: Uint32Array;
  readonly first: Uint32Array;
  readonly arity: Uint32Array;
  readonly aux: Int32Array;
  /** Index into `places`. */
  readonly place: Int32Array;
  readonly pool: Uint32Array;
}

export interface Instance {
  readonly id: InstanceId;
  /** Path from the top: '' for the top itself, `u1` , `u1.g[2].u`. */
  readonly path: string;
  readonly module: string;
  readonly parent: InstanceId | null;
  /** The instantiation; for the top, its header name. */
  readonly place: Place;
  readonly children: readonly InstanceId[];
  /** Elaborated parameters in source order (localparams too). */
  readonly parameters: readonly Parameter[];
}

export interface Parameter {
  readonly name: string;
  readonly value: Bits;
  readonly signed: boolean;
  readonly local: boolean;
  readonly place: Place;
}

export type SignalKind = 'net' | 'variable';

export interface Signal {
  readonly id: SignalId;
  /** Full name: instance path, generate blocks, own name: `u1.q`. */
  readonly name: string;
  readonly localName: string;
  readonly instance: InstanceId;
  readonly width: number;
  /** Declared indices; equal and `scalar` true for a scalar. */
  readonly msb: number;
  readonly lsb: number;
  readonly scalar: boolean;
  readonly signed: boolean;
  /** Where the bits are no plain vector; `msb` and `lsb` then number them down to 0. */
  readonly packed?: PackedForm;
  /** What an enumeration calls its values. */
  readonly names?: Enumeration;
  readonly kind: SignalKind;
  /** wire, wand, wor, tri0, …, reg, logic, integer, … */
  readonly type: string;
  readonly port: 'input' | 'output' | 'inout' | null;
  /** The whole value: a `net` node, or a `concat` of `net` nodes where different drivers hold different bits. */
  readonly node: NodeId;
  /** Its stretches by driver, least significant first, without gaps. */
  readonly pieces: readonly NetPieceId[];
  readonly place: Place;
}

export type NetPieceId = number & { readonly netPieceId: unique symbol };

/** A maximal stretch of a signal with one driver: bits [low + width - 1 : low] of the signal, low counted from its lsb. */
export interface NetPiece {
  readonly id: NetPieceId;
  readonly signal: SignalId;
  readonly low: number;
  readonly width: number;
  /** The `net` node. Its operand is the driver. */
  readonly node: NodeId;
}

export type EdgeKind = 'rising' | 'falling';

export interface AsynchronousControl {
  /** The 1-bit node as it stands in the edge list (before inversion by the test). */
  readonly control: Bit;
  /** The level of `control` that loads. */
  readonly active: 'high' | 'low';
  /** What it loads: a node of the register's width. */
  readonly value: NodeId;
  readonly place: Place;
}

/** A slice of a signal that the text clocks together (definition 11). */
export interface Register {
  readonly id: RegisterId;
  readonly signal: SignalId;
  /** Lowest bit, counted from the signal's least significant bit, and width. */
  readonly low: number;
  readonly width: number;
  /** The `register` node: the present output. */
  readonly node: NodeId;
  readonly clock: Bit;
  readonly edge: EdgeKind;
  /** The clock as written in the edge list: its text. */
  readonly clockText: string;
  readonly clockPlace: Place;
  /** In priority order. */
  readonly asynchronous: readonly AsynchronousControl[];
  /** Next value at an active edge; holds by reading its own `register` node. */
  readonly data: NodeId;
  /** Clock-to-output delay written in the text (`q <= #3 d`); index in `explicitDelays`, or -1. */
  readonly delay: number;
  /** From a declaration or initial block; x where none. Width of the register. */
  readonly initial: Bits;
  /** Where the initial value is written, null where none. */
  readonly initialPlace: Place | null;
  readonly process: ProcessId;
  readonly instance: InstanceId;
  /** Declaration of the signal. */
  readonly place: Place;
  /** The first assignment that samples it. */
  readonly samplePlace: Place;
  /** Always-on enable regions as written: the part of the register and the condition under which it is assigned. */
  readonly enables: readonly EnableRegion[];
}

export interface EnableRegion {
  readonly low: number;
  readonly width: number;
  /** 1-bit node: 1 = assigned at the active edge. */
  readonly condition: NodeId;
  /** The condition as written. */
  readonly text: string;
  readonly place: Place;
}

export interface Latch {
  readonly id: LatchId;
  readonly signal: SignalId;
  readonly low: number;
  readonly width: number;
  readonly node: NodeId;
  /** 1-bit node, open while it is `active`. */
  readonly gate: Bit;
  readonly active: 'high' | 'low';
  readonly asynchronous: readonly AsynchronousControl[];
  readonly data: NodeId;
  readonly initial: Bits;
  readonly process: ProcessId;
  readonly instance: InstanceId;
  readonly place: Place;
  /** What made it a latch: the branch or item that leaves the target alone. */
  readonly holdPlace: Place;
  /** Facts for `intended` (definition 40): flavor and whether other branches or targets of the block are complete. */
  readonly flavor: 'always' | 'always_comb' | 'always_latch' | 'gates';
  readonly othersComplete: boolean;
}

/** An array that is read or written at an index that varies (definition 11). */
export interface Memory {
  readonly id: number;
  /** Full name, as a signal's. */
  readonly name: string;
  readonly instance: InstanceId;
  /**
   * Where it is kept word by word: the signals of its words, each with a register of its own. Else one signal, whose
   * value is a content: a number that `contents` reads and writes words of.
   */
  readonly signals: readonly SignalId[];
  /** Null where it is kept word by word. */
  readonly contents: MemoryContents | null;
  readonly words: number;
  readonly width: number;
  readonly place: Place;
  /** In source order; `process` null where a connection reads. */
  readonly ports: readonly {
    readonly kind: 'read' | 'write';
    readonly process: ProcessId | null;
    readonly place: Place;
  }[];
}

export interface BlackBox {
  readonly id: number;
  readonly module: string;
  readonly instance: string;
  readonly parent: InstanceId;
  readonly place: Place;
  readonly pins: readonly BlackBoxPin[];
}

/** Direction is not known: a pin whose net nothing else drives is an output. */
export interface BlackBoxPin {
  readonly name: string;
  readonly direction: 'input' | 'output' | 'unknown';
  readonly node: NodeId;
  /** For outputs: the black box output id that `Op.blackBox` nodes carry; else -1. */
  readonly output: number;
  readonly place: Place;
}

export interface Process {
  readonly id: ProcessId;
  readonly instance: InstanceId;
  readonly flavor: 'always' | 'always_ff' | 'always_comb' | 'always_latch' | 'initial' | 'assign' | 'gate';
  readonly place: Place;
  /** What the process became. */
  readonly kind: 'clocked' | 'combinational' | 'latch' | 'stimulus' | 'unreadable';
  /** As written; empty for @*, assign and gates. */
  readonly sensitivity: readonly {
    readonly edge: 'posedge' | 'negedge' | null;
    readonly node: NodeId;
    readonly text: string;
    readonly place: Place;
  }[];
  readonly implicitSensitivity: boolean;
  /** Signals read before being written in the process, once each, in source order. */
  readonly reads: readonly {
    readonly signal: SignalId;
    readonly low: number;
    readonly width: number;
    readonly place: Place;
  }[];
  readonly assignments: readonly {
    readonly signal: SignalId;
    readonly low: number;
    readonly width: number;
    readonly blocking: boolean;
    readonly place: Place;
  }[];
}

/** min, typ, max in ps. */
export interface DelayTriple {
  readonly min: number;
  readonly typ: number;
  readonly max: number;
}

/** Delay per direction of change; to x: the smallest (IEEE 1364-2005 7.14). */
export interface ExplicitDelay {
  readonly rise: DelayTriple;
  readonly fall: DelayTriple;
  readonly toZ: DelayTriple;
  readonly place: Place;
  /**
   * By bit of the `delay` node: the module paths to it (IEEE 1364-2005 14). Then the delay is that of the path whose
   * input changed last, and the three above span all of them. Absent where the text says `#`.
   */
  readonly paths?: readonly (readonly PathDelay[])[];
}

/** A module path to one bit of an output. */
export interface PathDelay {
  /** A change of any of them begins the path. */
  readonly from: readonly Bit[];
  /** Null: on every change. */
  readonly edge: 'posedge' | 'negedge' | null;
  /** The path counts while this is not 0; null: always. */
  readonly condition: Bit | null;
  /** `ifnone`: counts where no path with a condition from the same input does. */
  readonly isFallback: boolean;
  /** Twelve: 01, 10, 0z, z1, 1z, z0, 0x, x1, 1x, x0, xz, zx (14.3.1). */
  readonly delays: readonly DelayTriple[];
  /** Pulses narrower than the first are removed, than the second x (14.6); null: both are the delay itself. */
  readonly pulse: { readonly reject: DelayTriple; readonly error: DelayTriple } | null;
  /** When an x begins: at the pulse's own first edge, or as soon as it is known to be too narrow (14.6.3). */
  readonly pulseStyle: 'onevent' | 'ondetect';
  readonly place: Place;
}

/** An event of a timing check (IEEE 1364-2005 15.1, 15.4). */
export interface CheckEvent {
  readonly bits: readonly Bit[];
  /** Changes that count, old level and new: `01`, `x1`, …; empty: every change. */
  readonly edges: readonly string[];
  /** The event counts while this is not 0; null: always. */
  readonly condition: Bit | null;
  readonly text: string;
}

export type CheckKind =
  | 'setup'
  | 'hold'
  | 'setuphold'
  | 'recovery'
  | 'removal'
  | 'recrem'
  | 'skew'
  | 'width'
  | 'period'
  | 'nochange';

/** A timing check that the text states, in one instance. */
export interface TimingCheck {
  readonly kind: CheckKind;
  readonly instance: InstanceId;
  /** The clock; of recovery and removal the control; of skew, width, period and nochange the reference event. */
  readonly reference: CheckEvent;
  /** Data, or for recovery and removal the clock; null for width and period. */
  readonly data: CheckEvent | null;
  /** ps, two for setuphold, recrem, nochange and width (limit, threshold); may be negative in the first three. */
  readonly limits: readonly DelayTriple[];
  readonly place: Place;
}

/** What specify blocks state about a stored value (IEEE 1364-2005 14, 15). Null: nothing, and the delay set holds. */
export interface SpecifiedRegister {
  readonly register: RegisterId;
  readonly clockToQ: { readonly rise: DelayTriple; readonly fall: DelayTriple } | null;
  readonly clear: { readonly rise: DelayTriple; readonly fall: DelayTriple } | null;
  readonly setup: DelayTriple | null;
  readonly hold: DelayTriple | null;
  readonly recovery: DelayTriple | null;
  readonly removal: DelayTriple | null;
}

export interface Specified {
  readonly registers: readonly SpecifiedRegister[];
  /** Latches and operators behind a path: the time they take is the path's. */
  readonly latches: readonly LatchId[];
  readonly operators: readonly NodeId[];
  readonly checks: readonly TimingCheck[];
}

export type ResolutionKind = 'wire' | 'wand' | 'wor' | 'tri0' | 'tri1';

/** One driver of a signal's bits, for findings about shared drivers. */
export interface Driver {
  readonly signal: SignalId;
  readonly low: number;
  readonly width: number;
  readonly node: NodeId;
  readonly process: ProcessId | null;
  readonly place: Place;
  /** Whether it can give z (tri-state or conditional z). */
  readonly canRelease: boolean;
}

export interface Netlist {
  readonly top: InstanceId;
  readonly nodes: NodeColumns;
  readonly constants: readonly Bits[];
  readonly places: readonly Place[];
  readonly instances: readonly Instance[];
  readonly signals: readonly Signal[];
  readonly pieces: readonly NetPiece[];
  readonly registers: readonly Register[];
  readonly latches: readonly Latch[];
  readonly memories: readonly Memory[];
  readonly blackBoxes: readonly BlackBox[];
  /** For `Op.blackBox` nodes: which box and pin each output id is. */
  readonly blackBoxOutputs: readonly { readonly box: number; readonly pin: number }[];
  readonly processes: readonly Process[];
  readonly explicitDelays: readonly ExplicitDelay[];
  readonly resolutions: readonly { readonly kind: ResolutionKind; readonly signal: SignalId }[];
  /** Per wildcard select node: for each arm, the label bits that match anything (a = 1 bits). */
  readonly caseWildcards: readonly (readonly Bits[])[];
  /** Every bit range driven more than once, with all its drivers (tri-states included). */
  readonly sharedDrivers: readonly {
    readonly signal: SignalId;
    readonly low: number;
    readonly width: number;
    readonly drivers: readonly Driver[];
  }[];
  /** Comparisons whose value never changes by width or sign (definition 18). */
  readonly fixedComparisons: readonly {
    readonly node: NodeId;
    readonly value: 0 | 1;
    readonly place: Place;
    readonly text: string;
  }[];
  /** Absent where no specify block is in the design. */
  readonly specified?: Specified;
}

/** Top-level ports in header order. */
export function topPorts(netlist: Netlist): readonly Signal[] {
  return netlist.signals.filter((signal) => signal.port !== null && signal.instance === netlist.top);
}

/** Words or contents of memories: stored, but no registers that anybody named. */
export function memoryWords({ memories }: Pick<Netlist, 'memories'>): ReadonlySet<SignalId> {
  return new Set(memories.flatMap(({ signals }) => signals));
}

/** The memory whose content a register or latch holds; null for every other. */
export function memoryHeldIn(
  { memories }: Pick<Netlist, 'memories'>,
  { signal }: Pick<Register | Latch, 'signal'>,
): (Memory & { readonly contents: MemoryContents }) | null {
  for (const { contents, ...memory } of memories) {
    if (contents !== null && memory.signals[0] === signal) return { ...memory, contents };
  }
  return null;
}

export function contentsOf(
  netlist: Pick<Netlist, 'memories'>,
  stored: Pick<Register | Latch, 'signal'>,
): MemoryContents | null {
  return memoryHeldIn(netlist, stored)?.contents ?? null;
}

/** Signals that hold the content of a memory: no values that a person could read. */
export function contentSignals({ memories }: Pick<Netlist, 'memories'>): ReadonlySet<SignalId> {
  return new Set(memories.flatMap(({ contents, signals }) => (contents === null ? [] : signals)));
}

/** Nodes that hold the content of a memory under its name: nets, registers, latches. */
export function contentHolders(netlist: Netlist): ReadonlySet<NodeId> {
  const contents = contentSignals(netlist);
  if (contents.size === 0) return new Set();
  const held = [...netlist.registers, ...netlist.latches].filter(({ signal }) => contents.has(signal));
  const nets = netlist.pieces.filter(({ signal }) => contents.has(signal));
  return new Set([...held, ...nets].map(({ node }) => node));
}

/** The same netlist with memories of its own: what a run makes of their contents goes with it. */
export function withOwnContents(netlist: Netlist): Netlist {
  if (netlist.memories.every(({ contents }) => contents === null)) return netlist;
  const memories = netlist.memories.map((memory) => ({ ...memory, contents: memory.contents?.branch() ?? null }));
  return { ...netlist, memories };
}

export function operand(nodes: NodeColumns, node: NodeId, index: number): NodeId {
  return nodes.pool[nodes.first[node] + index] as NodeId;
}
