// Makes the finished module out of its draft: signals cut into pieces by driver, several drivers resolved, registers,
// latches and processes with their real nodes, and what a parent needs to link it.

import { budget } from '../budget';
import type { BlackBoxPin, NodeId, Parameter, Process, ProcessId, SignalId } from '../netlist/netlist';
import { createNodeBuilder } from '../netlist/node-builder';
import { Op } from '../netlist/operators';
import type { At } from '../syntax/tables';
import { impossible } from '../text/impossible';
import { type SettledBlackBoxes, settleBlackBoxes } from './black-boxes';
import { createConverter } from './convert-draft';
import { driveNets, exportsOf, releasingSignals } from './finish-drivers';
import { bitsOfSignal, nameSignals } from './finish-signals';
import { finishSpecified } from './finish-specified';
import { finishMemories } from './finish-memories';
import { finishLatches, finishRegisters, finishResetsInEnable, keptSignal, statesByHold } from './finish-state';
import type { FinishedSignal, Finishing } from './finishing';
import { drivenStretches } from './interface-ports';
import type { ChildDraft, LatchDraft, ModuleDraft, PortDraft, ProcessDraft, RegisterDraft } from './module-draft';
import { settleDrivers } from './settle-drivers';
import type { StartValues } from './start-store';
import type {
  PortMember,
  PortShape,
  Template,
  TemplateBlackBox,
  TemplateChild,
  TemplateSignal,
  Totals,
} from './template';

/** Yields now and then. */
export function* finishTemplate(draft: ModuleDraft, start: StartValues): Generator<void, Template> {
  const boxes = settleBlackBoxes(draft);
  const finishing = yield* startFinishing(draft, start);
  const { made, memories, settled } = finishing;
  const sharedDrivers = yield* driveNets(finishing);
  const exports = exportsOf(finishing, sharedDrivers);
  const registers = yield* finishRegisters(finishing);
  const latches = finishLatches(finishing);
  const resetsInEnable = finishResetsInEnable(finishing);
  const processes = yield* inTurns(draft.processes, (process) => [finishProcess(finishing, process)]);
  const blackBoxes = finishBlackBoxes(finishing, boxes);
  const children = yield* inTurns(draft.children, (child) => finishChild(finishing, child));
  yield;
  const fixedComparisons = finishComparisons(finishing);
  const specified = finishSpecified(finishing);
  const nodes = made.columns();
  return {
    moduleName: draft.moduleName,
    unit: draft.source.unit,
    place: draft.source.place(draft.table.name),
    scope: draft.root,
    complaints: draft.log.complaints,
    parameters: finishParameters(draft),
    ports: finishPorts(draft),
    signals: finishing.signals.map((signal) => finishSignal(draft, signal)),
    pieces: finishing.pieces,
    nodes,
    constants: made.constants,
    places: made.places,
    caseWildcards: made.caseWildcards,
    resolutions: made.resolutions,
    imports: draft.imports.entries,
    exports,
    releasing: releasingSignals(finishing),
    registers,
    latches,
    processes,
    memories: memories.memories,
    blackBoxes,
    blackBoxOutputs: boxes.outputs,
    explicitDelays: draft.explicitDelays.entries,
    specified,
    sharedDrivers,
    fixedComparisons,
    resetsInEnable,
    children,
    height: 1 + children.reduce((highest, { template }) => Math.max(highest, template.height), 0),
    totals: totalsOf(children, { instances: 1, nodes: nodes.count, registers: settled.registers.length }),
  };
}

function finishPorts(draft: ModuleDraft): readonly PortShape[] {
  const driven = draft.ports.some(({ members }) => members !== undefined) ? drivenStretches(draft) : new Map();
  return draft.ports.map((port) => finishPort(port, driven));
}

function finishPort(
  { name, direction, parts, width, members, preset, form }: PortDraft,
  driven: ReadonlyMap<number, PortMember['driven']>,
): PortShape {
  const shape = {
    name,
    direction,
    width,
    parts: parts.map((part) => ({ signal: part.signal.index, low: part.low, width: part.width })),
    ...(preset === undefined ? {} : { preset }),
    ...(form === undefined ? {} : { form }),
  };
  if (members === undefined) return shape;
  const finished = members.map(({ element, path, signal }) => ({
    element,
    path,
    direction: signal.port ?? 'input',
    signal: signal.index,
    driven: driven.get(signal.index) ?? [],
  }));
  return { ...shape, members: finished };
}

function* startFinishing(draft: ModuleDraft, start: StartValues): Generator<void, Finishing> {
  const settled = settleDrivers(draft, start);
  const made = createNodeBuilder(budget(draft.limits, 'nodes'));
  yield;
  const { signals, pieces } = yield* nameSignals(draft, made, settled.drivers);
  const outputs = new Map<RegisterDraft | LatchDraft, NodeId>();
  settled.registers.forEach((register, index) => {
    outputs.set(register, made.add(Op.register, register.width, [], index, draft.source.place(register.sampleAt)));
  });
  settled.latches.forEach((latch, index) => {
    outputs.set(latch, made.add(Op.latch, latch.width, [], index, draft.source.place(latch.at)));
  });
  const states = statesByHold(settled);
  const memories = finishMemories(draft);
  const convert = createConverter(draft.nodes, made, {
    signalBits: (signal, low, width) => bitsOfSignal(made, signals[signal], low, width),
    holdNode: (hold) => keptSignal({ draft, made, outputs }, states, draft.holds.entries[hold]),
    memory: (array) => memories.byArray.get(array) ?? impossible(`no memory for array ${array}`),
    memoryOfSignal: (signal) => memories.bySignal.get(signal) ?? null,
    memoryOfHold: (hold) => memories.bySignal.get(draft.holds.entries[hold].signal) ?? null,
  });
  return { memories, draft, start, settled, made, signals, pieces, outputs, convert };
}

/** A list made entry by entry, yielding now and then. */
function* inTurns<Entry, Result>(
  entries: readonly Entry[],
  make: (entry: Entry) => readonly Result[],
): Generator<void, Result[]> {
  const results: Result[] = [];
  for (const [index, entry] of entries.entries()) {
    results.push(...make(entry));
    if (index % 256 === 255) yield;
  }
  return results;
}

function finishSignal({ source }: ModuleDraft, { signal, node, pieces }: FinishedSignal): TemplateSignal {
  const { width, msb, lsb, scalar, signed, kind, type, packed, names } = signal.shape;
  return {
    ...(packed === undefined ? {} : { packed }),
    ...(names === undefined ? {} : { names }),
    id: signal.index as SignalId,
    path: signal.path,
    localName: signal.name,
    width,
    msb,
    lsb,
    scalar,
    signed,
    kind,
    type,
    port: signal.port,
    node,
    pieces: pieces.map(({ id }) => id),
    place: source.place(signal.at),
  };
}

function finishProcess({ draft, convert, signals }: Finishing, process: ProcessDraft): Omit<Process, 'instance'> {
  const { source } = draft;
  const isListed = ({ signal }: { readonly signal: number }) => signal < signals.length;
  return {
    id: process.index as ProcessId,
    flavor: process.flavor,
    place: source.place(process.at),
    kind: process.kind,
    sensitivity: process.sensitivity.map(({ edge, node, at }) => ({
      edge,
      node: convert(node),
      text: source.textOf(at),
      place: source.place(at),
    })),
    implicitSensitivity: process.implicitSensitivity,
    reads: process.reads.filter(isListed).map(({ signal, low, width, at }) => ({
      signal: signal as SignalId,
      low,
      width,
      place: source.place(at),
    })),
    assignments: process.assignments.filter(isListed).map(({ signal, low, width, blocking, at }) => ({
      signal: signal as SignalId,
      low,
      width,
      blocking,
      place: source.place(at),
    })),
  };
}

function finishBlackBoxes({ draft, convert }: Finishing, { boxes }: SettledBlackBoxes): TemplateBlackBox[] {
  const { source } = draft;
  return boxes.map(({ module, path, at, pins, complaint }) => ({
    isGiven: complaint !== null,
    module,
    path,
    place: source.place(at),
    pins: pins.map(
      ({ name, direction, node, output, at: pinAt }): BlackBoxPin => ({
        name,
        direction,
        node: convert(node),
        output,
        place: source.place(pinAt),
      }),
    ),
  }));
}

function finishChild({ draft, convert }: Finishing, child: ChildDraft): TemplateChild[] {
  const { template, path, at, inputs, index } = child;
  if (template === null) return [];
  const converted = new Map([...inputs].map(([signal, node]) => [signal, convert(node)] as const));
  return [{ index, path, place: draft.source.place(at), template, inputs: converted }];
}

/** Once each: a test may be looked at twice. */
function finishComparisons({ draft, convert }: Finishing): Template['fixedComparisons'] {
  const seen = new Map<At, Set<NodeId>>();
  return draft.comparisons.flatMap(({ node: drafted, value, at }) => {
    const node = convert(drafted);
    const nodes = seen.get(at) ?? new Set();
    seen.set(at, nodes);
    if (nodes.has(node)) return [];
    nodes.add(node);
    return [{ node, value, place: draft.source.place(at), text: draft.source.textOf(at) }];
  });
}

/** Real parameters have no bits and are left out. */
function finishParameters({ parameters, source }: ModuleDraft): Parameter[] {
  return parameters.flatMap(({ name, value, local, at }) => {
    const constant = value();
    if (constant.kind === 'real') return [];
    return [{ name, value: constant.bits, signed: constant.signed, local, place: source.place(at) }];
  });
}

function totalsOf(children: readonly TemplateChild[], own: Totals): Totals {
  return children.reduce(
    (sum, { template: { totals } }) => ({
      instances: sum.instances + totals.instances,
      nodes: sum.nodes + totals.nodes,
      registers: sum.registers + totals.registers,
    }),
    own,
  );
}
