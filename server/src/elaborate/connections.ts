// Connects an instance's ports (IEEE 1364-2005 12.3): an input takes the value of an expression, an output drives a
// target, an inout does both. Instances of an array share a connection or take their bits of it (7.1.6).

import { type Bits, bitsOf } from '../netlist/four-state';
import type { NodeId } from '../netlist/netlist';
import { concatOf, extendTo, sliceOf } from '../netlist/node-makers';
import type { Expression } from '../syntax/tables';
import { connectedExpressions } from './connection-lists';
import { contextIn } from './constants';
import { driveTarget } from './continuous';
import { importNode } from './draft-nodes';
import { connectInterface } from './interface-connections';
import { typeOf } from './expression-type';
import { lower, lowerFor } from './lower';
import type { ChildDraft, ModuleDraft } from './module-draft';
import { createNodeReader } from './process-reader';
import { sliceTarget, type Target, targetOf } from './targets';
import type { PortShape, Template } from './template';

export function connectChild(draft: ModuleDraft, child: ChildDraft, template: Template): void {
  const inputs = new Map<number, Piece[]>();
  connectedExpressions(draft, child, template.ports).forEach((expression, index) => {
    const port = template.ports[index];
    if (expression === null) {
      if (port.preset !== undefined && !isLeftOpen(child, port)) presetInput(draft, child, port, port.preset, inputs);
      return;
    }
    if (port.members !== undefined) {
      connectInterface(draft, child, template, port, expression);
      return;
    }
    if (port.width === 0) {
      leaveUnknown(draft, child, port, expression);
      return;
    }
    if (port.direction !== 'output') addInput(draft, child, port, expression, inputs);
    if (port.direction !== 'input') addOutput(draft, child, template, port, expression);
  });
  for (const [signal, pieces] of inputs) {
    child.inputs.set(signal, wholeSignal(draft, child, template.signals[signal].width, pieces));
  }
}

/** `.name()` leaves a port open even where it has a value of its own (IEEE 1800-2017 23.3.2.2). */
function isLeftOpen({ table }: ChildDraft, port: PortShape): boolean {
  return table.connections.some(({ name }) => name !== null && name.name === port.name);
}

function presetInput(
  draft: ModuleDraft,
  child: ChildDraft,
  { parts }: PortShape,
  preset: Bits,
  inputs: Map<number, Piece[]>,
): void {
  const node = draft.nodes.constant(preset, draft.source.place(child.at));
  for (const { signal, low, width } of parts) inputs.set(signal, [{ low, width, node }]);
}

/** What a port that could not be read may drive is unknown, not undriven. */
function leaveUnknown(draft: ModuleDraft, child: ChildDraft, port: PortShape, expression: Expression): void {
  if (port.direction === 'input') return;
  const target = targetOf(surroundings(draft, child), expression);
  driveTarget(draft, child.scope, null, target, { at: expression.at, value: null, delay: null, releases: false });
}

interface Piece {
  readonly low: number;
  readonly width: number;
  readonly node: NodeId;
}

function surroundings(draft: ModuleDraft, child: ChildDraft) {
  return { context: contextIn(draft, child.scope), reader: createNodeReader(draft, draft.otherReads, null) };
}

function addInput(
  draft: ModuleDraft,
  child: ChildDraft,
  port: PortShape,
  expression: Expression,
  inputs: Map<number, Piece[]>,
): void {
  const place = draft.source.place(expression.at);
  const value = inputValue(draft, child, port, expression);
  let above = port.width;
  for (const { signal, low, width } of port.parts) {
    above -= width;
    const piece = { low, width, node: sliceOf(draft.nodes, value, above, width, place) };
    const pieces = inputs.get(signal);
    if (pieces === undefined) inputs.set(signal, [piece]);
    else pieces.push(piece);
  }
}

function inputValue(draft: ModuleDraft, child: ChildDraft, port: PortShape, expression: Expression): NodeId {
  const at = surroundings(draft, child);
  const offset = bitsTaken(draft, child, port, expression, typeOf(at.context, expression).width);
  if (offset === null) return lowerFor(at, expression, port.width, () => port.form ?? null);
  return sliceOf(draft.nodes, lower(at, expression), offset, port.width, draft.source.place(expression.at));
}

/** In an array, the lowest bit of this instance's share; null where it takes the connection whole. */
function bitsTaken(
  draft: ModuleDraft,
  { element, table, item }: ChildDraft,
  port: PortShape,
  expression: Expression,
  width: number,
): number | null {
  if (element.count === 1 || width === port.width) return null;
  if (width === port.width * element.count) return element.position * port.width;
  const name = table.name?.name ?? item.module.name;
  const args = { name, width, expected: port.width * element.count };
  draft.log.add('instance-array-width', args, draft.source.place(expression.at));
  return null;
}

/** The signal behind ports that may each be a part of it; bits without a port are z. */
function wholeSignal(draft: ModuleDraft, child: ChildDraft, width: number, pieces: readonly Piece[]): NodeId {
  const place = draft.source.place(child.at);
  const parts: NodeId[] = [];
  let done = 0;
  const gap = (until: number) => {
    if (until > done) parts.unshift(draft.nodes.constant(bitsOf('z'.repeat(until - done)), place));
  };
  for (const piece of [...pieces].sort((left, right) => left.low - right.low)) {
    if (piece.low < done) continue;
    gap(piece.low);
    parts.unshift(piece.node);
    done = piece.low + piece.width;
  }
  gap(width);
  return parts.length === 1 ? parts[0] : concatOf(draft.nodes, parts, place);
}

function addOutput(
  draft: ModuleDraft,
  child: ChildDraft,
  template: Template,
  port: PortShape,
  expression: Expression,
): void {
  const drives = port.direction === 'output' || port.parts.some(({ signal }) => template.exports.has(signal));
  if (!drives) return;
  const place = draft.source.place(expression.at);
  const parts = port.parts.map(({ signal, low, width }) => {
    const kind = port.direction === 'inout' ? 'export' : 'below';
    const whole = importNode(
      draft,
      kind === 'export' ? { kind, child: child.index, signal } : { kind, path: [child.index], signal },
      template.signals[signal].width,
      expression.at,
    );
    return sliceOf(draft.nodes, whole, low, width, place);
  });
  const value = parts.length === 1 ? parts[0] : concatOf(draft.nodes, parts, place);
  const target = outputTarget(draft, child, port, targetOf(surroundings(draft, child), expression), expression);
  const isSigned = port.parts.length === 1 && template.signals[port.parts[0].signal].signed;
  const sized =
    target.width === null ? null : extendTo(draft.nodes, value, target.width, isSigned ? 'sign' : 'zero', place);
  const releases = port.parts.some(({ signal }) => template.releasing.has(signal));
  driveTarget(draft, child.scope, null, target, { at: expression.at, value: sized, delay: null, releases });
}

function outputTarget(
  draft: ModuleDraft,
  child: ChildDraft,
  port: PortShape,
  target: Target<NodeId>,
  expression: Expression,
): Target<NodeId> {
  if (target.width === null) return target;
  const offset = bitsTaken(draft, child, port, expression, target.width);
  return offset === null ? target : sliceTarget(target, offset, port.width);
}
