// One netlist out of a top's template and those below it: every instance a copy with offsets.

import type { Bit, Netlist, NodeColumns, NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type {
  Instance,
  InstanceId,
  Latch,
  LatchId,
  Memory,
  NetPiece,
  NetPieceId,
  Process,
  ProcessId,
  Register,
  RegisterId,
  Signal,
  SignalId,
} from '../netlist/netlist';
import { buildTree, type InstanceTree, type TreeInstance } from './instance-tree';
import { linkedNode, linkNodes } from './link-nodes';
import { type LinkedSpecified, linkSpecified } from './link-specified';
import type { SharedDrivers, Template } from './template';

export interface Linked {
  readonly netlist: Netlist;
  readonly tree: InstanceTree;
  readonly resetsInEnable: readonly LinkedResetInEnable[];
  readonly specified: LinkedSpecified | null;
}

/** A register that an asynchronous control only holds, because the control's branch does not assign it. */
export interface LinkedResetInEnable {
  readonly register: RegisterId;
  readonly control: Bit;
  readonly active: 'high' | 'low';
  readonly place: Register['place'];
}

/** `complaintOf`: number in the list of all complaints of a complaint of the instance's module. */
export function* link(
  top: Template,
  complaintOf: (template: Template, complaint: number) => number,
): Generator<void, Linked> {
  const tree = yield* buildTree(top);
  const { instances, templates } = tree;
  const nodes = yield* linkNodes(tree, ({ template }, complaint) =>
    complaint < 0 ? complaint : complaintOf(template, complaint),
  );
  const parts: Copied[] = [];
  for (const instance of instances) {
    parts.push(copyInstance(instance, nodes));
    if (instance.id % 64 === 63) yield;
  }
  yield;
  const netlist: Netlist = {
    top: 0 as InstanceId,
    nodes,
    constants: templates.flatMap(({ constants }) => constants),
    places: templates.flatMap(({ places }) => places),
    caseWildcards: templates.flatMap(({ caseWildcards }) => caseWildcards),
    explicitDelays: templates.flatMap(({ explicitDelays }) => explicitDelays),
    memories: parts.flatMap(({ memories }) => memories).map((memory, id) => ({ ...memory, id })),
    instances: instances.map(linkInstance),
    signals: parts.flatMap(({ signals }) => signals),
    pieces: parts.flatMap(({ pieces }) => pieces),
    registers: parts.flatMap(({ registers }) => registers),
    latches: parts.flatMap(({ latches }) => latches),
    blackBoxes: parts.flatMap(({ blackBoxes }) => blackBoxes),
    blackBoxOutputs: parts.flatMap(({ blackBoxOutputs }) => blackBoxOutputs),
    processes: parts.flatMap(({ processes }) => processes),
    resolutions: parts.flatMap(({ resolutions }) => resolutions),
    sharedDrivers: parts.flatMap(({ sharedDrivers }) => sharedDrivers),
    fixedComparisons: parts.flatMap(({ fixedComparisons }) => fixedComparisons),
  };
  const specified = linkSpecified(tree, nodes);
  return { netlist, tree, specified, resetsInEnable: parts.flatMap(({ resetsInEnable }) => resetsInEnable) };
}

/** What one instance brings of everything a netlist lists. */
type Copied = Pick<
  Netlist,
  | 'signals'
  | 'pieces'
  | 'registers'
  | 'latches'
  | 'memories'
  | 'blackBoxes'
  | 'blackBoxOutputs'
  | 'processes'
  | 'resolutions'
  | 'sharedDrivers'
  | 'fixedComparisons'
> &
  Pick<Linked, 'resetsInEnable'>;

function copyInstance(instance: TreeInstance, nodes: NodeColumns): Copied {
  const { template, bases } = instance;
  const copy = copierOf(instance, nodes);
  return {
    signals: template.signals.map(copy.signal),
    pieces: template.pieces.map(copy.piece),
    registers: template.registers.map(copy.register),
    latches: template.latches.map(copy.latch),
    memories: template.memories.map(copy.memory),
    blackBoxes: linkBlackBoxes(instance),
    blackBoxOutputs: template.blackBoxOutputs.map(({ box, pin }) => ({ box: box + bases.blackBox, pin })),
    processes: template.processes.map(copy.process),
    resolutions: linkResolutions(instance),
    sharedDrivers: template.sharedDrivers.map(copy.shared),
    fixedComparisons: template.fixedComparisons.map((fixed) => ({ ...fixed, node: linkedNode(instance, fixed.node) })),
    resetsInEnable: linkResets(instance, nodes),
  };
}

function linkInstance({ id, path, template, parent, place, children }: TreeInstance): Instance {
  return {
    id: id as InstanceId,
    path,
    module: template.moduleName,
    parent: parent === null ? null : (parent.id as InstanceId),
    place,
    children: children.map((child) => child.id as InstanceId),
    parameters: template.parameters,
  };
}

/** A bit of a linked node, through the wiring that linking has left around a name. */
function bitOf(instance: TreeInstance, nodes: NodeColumns, bit: Bit): Bit {
  let node = linkedNode(instance, bit.node);
  let index = bit.bit;
  while (nodes.op[node] === Op.concat || nodes.op[node] === Op.slice) {
    if (nodes.op[node] === Op.slice) {
      index += nodes.aux[node];
      node = nodes.pool[nodes.first[node]] as NodeId;
      continue;
    }
    let entry = nodes.first[node] + nodes.arity[node] - 1;
    for (; index >= nodes.width[nodes.pool[entry]]; entry--) index -= nodes.width[nodes.pool[entry]];
    node = nodes.pool[entry] as NodeId;
  }
  return { node, bit: index };
}

/** How each kind of thing in a template is copied for one instance. */
function copierOf(instance: TreeInstance, nodes: NodeColumns) {
  const { bases, path } = instance;
  const owner = instance.id as InstanceId;
  const node = (local: NodeId) => linkedNode(instance, local);
  const bit = (local: Bit) => bitOf(instance, nodes, local);
  const signalId = (signal: SignalId) => (signal + bases.signal) as SignalId;
  const processId = (process: ProcessId) => (process + bases.process) as ProcessId;
  const control = (own: Register['asynchronous'][number]) => ({
    ...own,
    control: bit(own.control),
    value: node(own.value),
  });
  return {
    signal({ path: local, ...signal }: Template['signals'][number]): Signal {
      return {
        ...signal,
        id: signalId(signal.id),
        name: path === '' ? local : `${path}.${local}`,
        instance: owner,
        node: node(signal.node),
        pieces: signal.pieces.map((piece) => (piece + bases.piece) as NetPieceId),
      };
    },
    piece(piece: NetPiece): NetPiece {
      return {
        ...piece,
        id: (piece.id + bases.piece) as NetPieceId,
        signal: signalId(piece.signal),
        node: node(piece.node),
      };
    },
    register(register: Template['registers'][number]): Register {
      return {
        ...register,
        id: (register.id + bases.register) as RegisterId,
        signal: signalId(register.signal),
        node: node(register.node),
        clock: bit(register.clock),
        asynchronous: register.asynchronous.map(control),
        data: node(register.data),
        delay: register.delay < 0 ? -1 : register.delay + instance.shared.delay,
        process: processId(register.process),
        instance: owner,
        enables: register.enables.map((region) => ({ ...region, condition: node(region.condition) })),
      };
    },
    latch(latch: Template['latches'][number]): Latch {
      return {
        ...latch,
        id: (latch.id + bases.latch) as LatchId,
        signal: signalId(latch.signal),
        node: node(latch.node),
        gate: bit(latch.gate),
        asynchronous: latch.asynchronous.map(control),
        data: node(latch.data),
        process: processId(latch.process),
        instance: owner,
      };
    },
    memory({ name, signals, contents, ports, ...memory }: Template['memories'][number]): Memory {
      return {
        ...memory,
        name: path === '' ? name : `${path}.${name}`,
        instance: owner,
        signals: signals.map(signalId),
        // Of its own: a module's template may serve another elaboration, or another instance.
        contents: contents?.branch() ?? null,
        ports: ports.map((port) => ({ ...port, process: port.process === null ? null : processId(port.process) })),
      };
    },
    process(process: Template['processes'][number]): Process {
      return {
        ...process,
        id: processId(process.id),
        instance: owner,
        sensitivity: process.sensitivity.map((item) => ({ ...item, node: node(item.node) })),
        reads: process.reads.map((read) => ({ ...read, signal: signalId(read.signal) })),
        assignments: process.assignments.map((made) => ({ ...made, signal: signalId(made.signal) })),
      };
    },
    shared({ signal, drivers, ...range }: SharedDrivers): SharedDrivers {
      return {
        ...range,
        signal: signalId(signal),
        drivers: drivers.map((driver) => ({
          ...driver,
          signal: signalId(driver.signal),
          node: node(driver.node),
          process: driver.process === null ? null : processId(driver.process),
        })),
      };
    },
  };
}

function linkBlackBoxes(instance: TreeInstance): Netlist['blackBoxes'][number][] {
  const { template, bases, path } = instance;
  return template.blackBoxes.map(({ path: local, pins, module, place }, index) => ({
    id: bases.blackBox + index,
    module,
    instance: path === '' ? local : `${path}.${local}`,
    parent: instance.id as InstanceId,
    place,
    pins: pins.map((pin) => ({
      ...pin,
      node: linkedNode(instance, pin.node),
      output: pin.output < 0 ? -1 : pin.output + bases.blackBoxOutput,
    })),
  }));
}

/** The template's own, then those in which the top's drivers of an inout meet the world. */
function linkResolutions({ template, bases, parent, ends }: TreeInstance): Netlist['resolutions'][number][] {
  const own = template.resolutions.map(({ kind, signal }) => ({ kind, signal: (signal + bases.signal) as SignalId }));
  if (parent !== null) return own;
  const outer = [...ends.keys()].filter((signal) => template.exports.has(signal));
  return [...own, ...outer.map((signal) => ({ kind: 'wire' as const, signal: (signal + bases.signal) as SignalId }))];
}

function linkResets(instance: TreeInstance, nodes: NodeColumns): LinkedResetInEnable[] {
  return instance.template.resetsInEnable.map(({ register, control, active, place }) => ({
    register: (register + instance.bases.register) as RegisterId,
    control: bitOf(instance, nodes, { node: control, bit: 0 }),
    active,
    place,
  }));
}
