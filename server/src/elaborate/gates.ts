// Gate primitives (IEEE 1364-2005 7): one driver per output, as written, with their delays. Pull gates name a level for
// a net that nothing else drives. Strengths are not read.

import type { NodeId } from '../netlist/netlist';
import { notOf, sliceOf } from '../netlist/node-makers';
import { Op } from '../netlist/operators';
import type { At, Expression, InstanceTable, Item } from '../syntax/tables';
import { contextIn } from './constants';
import { driveTarget } from './continuous';
import { declaredRange } from './declared-shape';
import { lower } from './lower';
import type { ModuleDraft, ProcessDraft } from './module-draft';
import { createNodeReader } from './process-reader';
import { addProcess } from './processes';
import type { Scope } from './scope';
import { sliceTarget, targetOf } from './targets';

export type GateItem = Extract<Item, { kind: 'gate' }>;

export function readGates(draft: ModuleDraft, scope: Scope, item: GateItem): void {
  for (const instance of item.instances) {
    const range = instance.range === null ? null : declaredRange(contextIn(draft, scope), instance.range);
    if (instance.range !== null && range === null) continue;
    const count = range?.width ?? 1;
    for (let position = count - 1; position >= 0; position--) {
      readGate(draft, scope, { item, instance, position, count });
    }
  }
}

interface OneGate {
  readonly item: GateItem;
  readonly instance: InstanceTable;
  /** In an array, 0 = rightmost; terminals take their bits of a connection by it. */
  readonly position: number;
  readonly count: number;
}

function readGate(draft: ModuleDraft, scope: Scope, gate: OneGate): void {
  const process = addProcess(draft, 'gate', gate.instance.at);
  const terminals = gate.instance.connections.map(({ value }) => value);
  const shape = terminalsOf(gate.item, terminals.length);
  if (shape === null) {
    const args = { gate: gate.item.gate, given: terminals.length };
    draft.log.add('terminal-count', args, draft.source.place(gate.instance.at));
    return;
  }
  const outputs = terminals.slice(0, shape.outputs);
  if (gate.item.gate === 'pullup' || gate.item.gate === 'pulldown') {
    for (const output of outputs) if (output !== null) pull(draft, scope, gate, process, output);
    return;
  }
  const inputs = terminals.slice(shape.outputs).map((input) => inputOf(draft, scope, gate, process, input));
  const value = gateValue(draft, gate, inputs);
  for (const output of outputs) if (output !== null) driveOutput(draft, scope, gate, process, output, value);
}

/** How many outputs come first; null where the gate cannot have that many terminals (7.2 to 7.4, 7.8). */
function terminalsOf({ gate }: GateItem, count: number): { readonly outputs: number } | null {
  switch (gate) {
    case 'buf':
    case 'not':
      return count >= 2 ? { outputs: count - 1 } : null;
    case 'bufif0':
    case 'bufif1':
    case 'notif0':
    case 'notif1':
      return count === 3 ? { outputs: 1 } : null;
    case 'pullup':
    case 'pulldown':
      return count >= 1 ? { outputs: count } : null;
    default:
      return count >= 2 ? { outputs: 1 } : null;
  }
}

function gateValue({ nodes, source }: ModuleDraft, { item, instance }: OneGate, inputs: readonly NodeId[]): NodeId {
  const place = source.place(instance.at);
  const [first, second] = inputs;
  switch (item.gate) {
    case 'bufif1':
      return nodes.add(Op.tristate, 1, [first, second], 0, place);
    case 'bufif0':
      return nodes.add(Op.tristate, 1, [first, notOf(nodes, second, place)], 0, place);
    case 'notif1':
      return nodes.add(Op.tristate, 1, [notOf(nodes, first, place), second], 0, place);
    case 'notif0':
      return nodes.add(Op.tristate, 1, [notOf(nodes, first, place), notOf(nodes, second, place)], 0, place);
    case 'pullup':
    case 'pulldown':
      return first;
    default:
      return nodes.add(Op[item.gate], 1, inputs, 0, place);
  }
}

function surroundings(draft: ModuleDraft, scope: Scope, process: ProcessDraft) {
  return { context: contextIn(draft, scope), reader: createNodeReader(draft, process, null) };
}

/** An open input floats. */
function inputOf(
  draft: ModuleDraft,
  scope: Scope,
  gate: OneGate,
  process: ProcessDraft,
  input: Expression | null,
): NodeId {
  const { nodes, source } = draft;
  if (input === null) return nodes.add(Op.hole, 1, [], -1, source.place(gate.instance.at));
  const value = lower(surroundings(draft, scope, process), input);
  const bit = terminalBit(draft, gate, nodes.nodes.width[value], input.at);
  return sliceOf(nodes, value, bit, 1, source.place(input.at));
}

/** Which bit of a connection a terminal takes: its own of an array's, else the only one. */
function terminalBit(draft: ModuleDraft, { item, position, count }: OneGate, width: number, at: At): number {
  if (width === 1) return 0;
  if (width === count) return position;
  draft.log.add('terminal-width', { gate: item.gate, width }, draft.source.place(at));
  return 0;
}

function driveOutput(
  draft: ModuleDraft,
  scope: Scope,
  gate: OneGate,
  process: ProcessDraft,
  output: Expression,
  value: NodeId,
): void {
  const target = bitTarget(draft, scope, gate, process, output);
  driveTarget(draft, scope, process, target, { at: gate.instance.at, value, delay: gate.item.delay, releases: false });
}

function bitTarget(draft: ModuleDraft, scope: Scope, gate: OneGate, process: ProcessDraft, output: Expression) {
  const target = targetOf(surroundings(draft, scope, process), output);
  if (target.width === null || target.width === 1) return target;
  return sliceTarget(target, terminalBit(draft, gate, target.width, output.at), 1);
}

function pull(draft: ModuleDraft, scope: Scope, gate: OneGate, process: ProcessDraft, output: Expression): void {
  for (const part of bitTarget(draft, scope, gate, process, output).parts) {
    if (part.kind !== 'slice') continue;
    const { signal, low, width } = part;
    const kind = gate.item.gate === 'pullup' ? 'tri1' : 'tri0';
    draft.pulls.push({ signal: signal.index, low, width, at: gate.instance.at, kind });
  }
}
