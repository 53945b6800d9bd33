// Who is clocked by what, as found by structure alone: no numbers over time. The words are those of the project's
// definitions (clock network): root, stage, root edge, domain, chain, gated, switched and derived clocks.

import type { Place } from '../text/place';
import type { ReasonArguments } from '../text/complaint';
import type { Bit, EdgeKind, LatchId, NodeId, RegisterId } from '../netlist/netlist';

export type RootEdge = EdgeKind | 'either';

export type ClockId = number & { readonly clockId: unique symbol };
export type DomainId = number & { readonly domainId: unique symbol };

/** A sentence to be worded by `explain/`: a key and what it needs. */
export interface Why {
  readonly reason: string;
  readonly args: ReasonArguments;
}

/** What a person stated about clocks in `foretick.json`; names as in the report. */
export interface ClockOptions {
  /** Gate output (canonical name) → which operand is its clock. */
  readonly clockOperands: Readonly<Record<string, string>>;
  /** Groups of roots with a known relation. */
  readonly related: readonly (readonly string[])[];
  /** Black boxes: module → pin → what it does to a clock. */
  readonly cells: Readonly<Record<string, CellFacts>>;
  /** Registers and ports stated never to change while they matter. */
  readonly static: readonly string[];
}

export interface CellFacts {
  readonly pins: Readonly<Record<string, 'clock' | 'buffer' | 'inverter'>>;
  /** `p/q` root periods per period of the cell's output, where stated. */
  readonly ratio: string | null;
}

/** Where every walk back from a clock pin ends: a top port, inout, black box output, undriven bit or ungated latch. */
export interface Root {
  readonly bit: Bit;
  /** Canonical name. */
  readonly name: string;
  readonly kind: 'port' | 'inout' | 'blackBox' | 'undriven' | 'latch';
  readonly place: Place;
}

export type ClockKind = 'root' | 'inverted' | 'derived' | 'gated' | 'switched' | 'shared';

/** A bit that clocks a register or opens a latch, named by its canonical node. */
export interface Clock {
  readonly id: ClockId;
  readonly bit: Bit;
  readonly name: string;
  readonly kind: ClockKind;
  /** The clocks it is made from, nearest first: for derived, the register's clock; for gated, the clock operand. */
  readonly from: readonly ClockId[];
  /** Names of the bits it is made from (canonical), as the report prints them in `from`. */
  readonly fromNames: readonly string[];
  readonly roots: readonly number[];
  /** Null where more than one root or an unclear operand. */
  readonly root: number | null;
  /** How many register outputs lie between the root and this bit. */
  readonly stage: number;
  /** Which root edge a rising edge of this bit follows; null where unknown. */
  readonly risesOn: RootEdge | null;
  readonly domain: DomainId | null;
  /** Registers that this bit is an output of, directly (derived clocks), else empty. */
  readonly sourceRegisters: readonly {
    readonly register: RegisterId;
    readonly bit: number;
    readonly inverted: boolean;
  }[];
  readonly gate: GateFacts | null;
  /** Where the operand choice was open: the names that could be the clock. */
  readonly candidates: readonly string[];
  /** Set where the operand was told by its name only (definition 4). */
  readonly assumedFromName: string | null;
  readonly place: Place;
}

export interface GateControl {
  readonly bit: Bit;
  readonly name: string;
  readonly source: 'register' | 'latch' | 'port' | 'constant' | 'blackBox' | 'mixed';
  /** Root edges of the gate's own root at which it may change; empty where foreign, constant or a port. */
  readonly changesOn: readonly RootEdge[];
  /** Longest register-output stage of its launching registers; 0 for ports. */
  readonly launchRegisters: readonly RegisterId[];
  readonly launchLatches: readonly LatchId[];
  readonly foreign: boolean;
}

/** A gate or multiplexer in a clock path with a control (definition 9). */
export interface GateFacts {
  readonly kind: 'gate' | 'switch';
  /** Level of the first of `clockNames` at which no control can be seen at the output. */
  readonly blockingLevel: 0 | 1 | null;
  readonly clockNames: readonly string[];
  readonly controls: readonly GateControl[];
  /**
   * sound: every control changes only while blocked. unsound: some control changes while the gate passes, for certain
   * while its clock-to-output is shorter than the passing half. possible: a control from another domain or a port.
   * strapped: the control is constant.
   */
  readonly verdict: 'sound' | 'unsound' | 'possible' | 'strapped';
  readonly why: Why;
  readonly place: Place;
}

export interface ControlUse {
  readonly bit: Bit;
  /** Canonical name. */
  readonly name: string;
  readonly active: 'high' | 'low';
  /**
   * The loaded value: a node of the register's width. For a synchronous reset whose value no single node gives, the
   * register's data; `digits` tells the value then.
   */
  readonly value: NodeId;
  /** Binary digits of the value, most significant first; null where it is no constant. */
  readonly digits: string | null;
  readonly place: Place;
}

export interface RegisterClocking {
  readonly register: RegisterId;
  readonly clock: ClockId;
  readonly edge: EdgeKind;
  readonly root: { readonly root: number; readonly edge: RootEdge } | null;
  readonly roots: readonly number[];
  readonly domain: DomainId | null;
  readonly stage: number;
  readonly asynchronous: readonly ControlUse[];
  readonly synchronous: readonly ControlUse[];
  /** One enable for the whole register, where there is exactly one single-bit condition. */
  readonly enable: { readonly bit: Bit; readonly name: string; readonly active: 'high' | 'low' } | null;
  /** Data inverts or counts: its next state depends on its own bits (and enables, clears) alone and is not constant. */
  readonly selfDriven: boolean;
}

export interface LatchClocking {
  readonly latch: LatchId;
  /** Null for cross-coupled gates that no input opens: `asynchronous` sets and clears them. */
  readonly gate: ClockId | null;
  readonly active: 'high' | 'low';
  readonly root: number | null;
  readonly domain: DomainId | null;
  readonly asynchronous: readonly ControlUse[];
  readonly intended: boolean;
}

export interface Domain {
  readonly id: DomainId;
  /** Canonical name of its root; of its output bit for a switched clock. */
  readonly name: string;
  readonly roots: readonly number[];
  readonly related: readonly DomainId[];
  readonly registers: readonly RegisterId[];
  readonly place: Place;
}

/** A maximal path of two or more registers clocked one by the other whose members all toggle or count (definition 10). */
export interface Chain {
  readonly root: number | null;
  readonly registers: readonly RegisterId[];
  /** The bit of each register that clocks the next; of the last: its most significant. */
  readonly clockBits: readonly number[];
  readonly place: Place;
}

export type SynchronizerKind =
  | 'none'
  | 'one-flop'
  | 'two-flop'
  | 'three-flop'
  | 'gray'
  | 'toggle'
  | 'handshake'
  | 'enable';

/** Register or port bits of one domain sampled by a register of another. */
export interface Crossing {
  readonly from: readonly { readonly register: RegisterId | null; readonly name: string }[];
  readonly to: RegisterId;
  readonly fromDomain: DomainId;
  readonly toDomain: DomainId;
  readonly bits: number;
  /** Whether logic stands between source and first sampling register. */
  readonly throughLogic: boolean;
  readonly synchronizer: SynchronizerKind;
  readonly depth: number;
  /** Several bits go to several bits, and more than one may change at one edge of the sender. */
  readonly isBus: boolean;
  /** Several bits that go straight to several, of which one changes at a time in every state that was followed. */
  readonly isGray: boolean;
  /** The sending bit, where it is only one. */
  readonly source: Bit | null;
  /** The last flip-flop of the row that begins at `to`. */
  readonly last: RegisterId;
  readonly status: 'bare' | 'protected' | 'assumed' | 'accepted';
  readonly evidence: readonly Why[];
  readonly place: Place;
}

export interface ResetUse {
  readonly bit: Bit;
  readonly name: string;
  readonly active: 'high' | 'low';
  readonly kind: 'asynchronous' | 'synchronous';
  readonly release: 'synchronized' | 'raw';
  /** Registers that the bit is computed from. */
  readonly launchedBy: readonly RegisterId[];
  readonly registers: readonly RegisterId[];
  readonly domains: readonly DomainId[];
  readonly place: Place;
}

/**
 * A register whose next value hangs on several bits that were brought over from one domain each on its own, though more than
 * one of them may change at one edge of the sender (definition 39).
 */
export interface Rejoin {
  readonly to: RegisterId;
  /** Indices in `crossings`, ascending. */
  readonly crossings: readonly number[];
}

/** A port of one bit that registers of the design hear as data. */
export interface InputUse {
  readonly bit: Bit;
  readonly name: string;
  readonly place: Place;
  /** By register, each once. */
  readonly readers: readonly InputReader[];
}

export interface InputReader {
  readonly register: RegisterId;
  readonly domain: DomainId;
  /** Flip-flops in a row that sample it unchanged and are read by the next one alone; 0: through logic. */
  readonly depth: number;
}

export interface ClockNetwork {
  readonly roots: readonly Root[];
  readonly clocks: readonly Clock[];
  /** Indexed by register id. */
  readonly registers: readonly RegisterClocking[];
  /** Indexed by latch id. */
  readonly latches: readonly LatchClocking[];
  readonly domains: readonly Domain[];
  readonly chains: readonly Chain[];
  readonly crossings: readonly Crossing[];
  /** By register. */
  readonly rejoins: readonly Rejoin[];
  /** In the order of the ports. */
  readonly inputs: readonly InputUse[];
  readonly resets: readonly ResetUse[];
}

/** Orders places by unit and start: the order of every list above. */
export function comparePlaces(left: Place, right: Place): number {
  return left.unit - right.unit || left.start - right.start || left.end - right.end;
}
