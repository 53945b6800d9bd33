// A module with one set of parameters, read and finished: everything of a netlist that is its own, numbered from 0.
// An instance is a copy of it with offsets (`link.ts`). What comes from outside stands as imports.

import type { Bits } from '../netlist/four-state';
import type { PackedForm } from '../netlist/packed-form';
import type {
  BlackBoxPin,
  CheckEvent,
  Driver,
  ExplicitDelay,
  Latch,
  Memory,
  NetPiece,
  NodeColumns,
  NodeId,
  Parameter,
  PathDelay,
  Process,
  Register,
  ResolutionKind,
  Signal,
  SignalId,
  TimingCheck,
} from '../netlist/netlist';
import type { Complaint } from '../text/complaint';
import type { Place } from '../text/place';
import type { Scope } from './scope';

/** A value from outside the module, standing as an `input` node with this entry's index as its aux. */
export type Import =
  /** The value that the instance's surroundings give an input or inout signal, at the signal's full width. */
  | { readonly kind: 'port'; readonly signal: number }
  /** A signal of an instance below: children from here down, and the signal's number in the last one's module. */
  | { readonly kind: 'below'; readonly path: readonly number[]; readonly signal: number }
  /** What an instance drives onto an inout signal of its own from inside, at full width, z where nothing does. */
  | { readonly kind: 'export'; readonly child: number; readonly signal: number };

export interface PortShape {
  readonly name: string | null;
  readonly direction: 'input' | 'output' | 'inout';
  /** Most significant first. */
  readonly parts: readonly { readonly signal: number; readonly low: number; readonly width: number }[];
  readonly width: number;
  /** What an input is where the instance does not name it (IEEE 1800-2017 23.2.2.4). */
  readonly preset?: Bits;
  /** Of a port whose value is no plain vector. */
  readonly form?: PackedForm;
  /** Of an interface: its signals. */
  readonly members?: readonly PortMember[];
}

export interface PortMember {
  /** Position in an array of interfaces, from the left. */
  readonly element: number;
  /** From the interface down. */
  readonly path: string;
  readonly direction: PortShape['direction'];
  readonly signal: number;
  /** Bits that the module drives. */
  readonly driven: readonly { readonly low: number; readonly width: number }[];
}

export interface TemplateSignal extends Omit<Signal, 'instance' | 'name'> {
  /** From the module down, with generate blocks. */
  readonly path: string;
}

export interface TemplateChild {
  /** Its number among all instances of the module's text, given modules or not: what imports name. */
  readonly index: number;
  readonly path: string;
  readonly place: Place;
  readonly template: Template;
  /** By the child's signal number. */
  readonly inputs: ReadonlyMap<number, NodeId>;
}

export interface TemplateBlackBox {
  /** Its module is given, but could not be read here; a complaint says why. */
  readonly isGiven: boolean;
  readonly module: string;
  readonly path: string;
  readonly place: Place;
  readonly pins: readonly BlackBoxPin[];
}

export interface ResetInEnable {
  readonly register: number;
  readonly signal: SignalId;
  readonly control: NodeId;
  readonly active: 'high' | 'low';
  readonly place: Place;
}

/** What specify blocks say; nodes of the template. */
export interface TemplateSpecified {
  readonly paths: readonly TemplatePath[];
  readonly checks: readonly TemplateCheck[];
}

export interface TemplatePath
  extends Pick<PathDelay, 'edge' | 'delays' | 'pulse' | 'pulseStyle' | 'isFallback' | 'place'> {
  /** Every bit of it to every bit of `to`, or bit by bit where it is not `full`. */
  readonly from: NodeId;
  readonly to: { readonly signal: SignalId; readonly low: number; readonly width: number };
  readonly full: boolean;
  readonly condition: NodeId | null;
}

export interface TemplateCheck extends Pick<TimingCheck, 'kind' | 'limits' | 'place'> {
  readonly reference: TemplateEvent;
  readonly data: TemplateEvent | null;
}

export interface TemplateEvent extends Pick<CheckEvent, 'edges' | 'text'> {
  readonly node: NodeId;
  readonly condition: NodeId | null;
}

export interface Template {
  readonly moduleName: string;
  readonly unit: number;
  /** The module's name in its header. */
  readonly place: Place;
  readonly scope: Scope;
  readonly complaints: readonly Complaint[];
  readonly parameters: readonly Parameter[];
  readonly ports: readonly PortShape[];
  readonly signals: readonly TemplateSignal[];
  readonly pieces: readonly NetPiece[];
  readonly nodes: NodeColumns;
  readonly constants: readonly Bits[];
  readonly places: readonly Place[];
  readonly caseWildcards: readonly (readonly Bits[])[];
  readonly resolutions: readonly { readonly kind: ResolutionKind; readonly signal: SignalId }[];
  readonly imports: readonly Import[];
  /** By signal number: what the module itself drives onto an inout signal. */
  readonly exports: ReadonlyMap<number, NodeId>;
  /** Port signals that can be z from inside. */
  readonly releasing: ReadonlySet<number>;
  readonly registers: readonly Omit<Register, 'instance'>[];
  readonly latches: readonly Omit<Latch, 'instance'>[];
  readonly processes: readonly Omit<Process, 'instance'>[];
  readonly memories: readonly Omit<Memory, 'instance'>[];
  readonly blackBoxes: readonly TemplateBlackBox[];
  readonly blackBoxOutputs: readonly { readonly box: number; readonly pin: number }[];
  readonly explicitDelays: readonly ExplicitDelay[];
  /** Null where the module has no specify block. */
  readonly specified: TemplateSpecified | null;
  readonly sharedDrivers: readonly SharedDrivers[];
  readonly fixedComparisons: readonly {
    readonly node: NodeId;
    readonly value: 0 | 1;
    readonly place: Place;
    readonly text: string;
  }[];
  readonly resetsInEnable: readonly ResetInEnable[];
  readonly children: readonly TemplateChild[];
  /** Levels of instances from here down, this one included. */
  readonly height: number;
  /** Instances, nodes and registers from here down. */
  readonly totals: Totals;
}

export interface Totals {
  readonly instances: number;
  readonly nodes: number;
  readonly registers: number;
}

export interface SharedDrivers {
  readonly signal: SignalId;
  readonly low: number;
  readonly width: number;
  readonly drivers: readonly Driver[];
}
