// A process on edges becomes registers (definitions 11 to 13): slices that share clock, asynchronous controls and their
// activation. A target that a control's branch leaves alone holds while the control is active: the reset has become its
// enable, and that is recorded. What no rule gives a clock is unknown, with the rule that failed.

import type { NodeBuilder } from '../netlist/node-builder';
import type { Statement } from '../syntax/tables';
import { type ControlledBranch, type Part, partOf, type TopStatement, topStatements } from './clocked-chains';
import { createLayer, type Layer, writeSlice } from './environment';
import type { Failure } from './failure';
import { signalsIn } from './final-slices';
import { type EdgeDraft, type RegisterDraft, signalAt } from './module-draft';
import { registersOf } from './register-slices';
import { followStatement } from './statements';
import type { Position, Walk } from './walk';

export interface ClockedResult {
  readonly registers: readonly RegisterDraft[];
  /** Signals without a clock, each with what failed; a temporary among them needs none. */
  readonly unclocked: readonly { readonly signal: number; readonly failure: Failure }[];
}

export function* readClocked(
  walk: Walk,
  position: Position,
  body: Statement,
  edges: readonly EdgeDraft[],
): Generator<void, ClockedResult> {
  const registers: RegisterDraft[] = [];
  const unclocked: { signal: number; failure: Failure }[] = [];
  const writers = new Map<number, number>();
  const tops: readonly TopStatement[] =
    edges.length === 1 ? [{ statement: body, position }] : topStatements(position, body);
  for (const [index, top] of tops.entries()) {
    const part: Part = partOf(walk, top, edges);
    const layers =
      part.kind === 'chain' ? yield* readChain(walk, position, part, registers) : [yield* readPlain(walk, part)];
    for (const signal of signalsIn(layers)) {
      if (part.kind === 'plain') unclocked.push({ signal, failure: part.failure });
      if (writers.has(signal)) unclocked.push({ signal, failure: writtenBeside(walk, signal, top.statement) });
      writers.set(signal, index);
    }
    adopt(position.layer, layers[layers.length - 1], walk.draft.nodes);
  }
  return { registers, unclocked };
}

/** Layers of the branches, the clocked part's last. */
function* readChain(
  walk: Walk,
  position: Position,
  part: Extract<Part, { kind: 'chain' }>,
  registers: RegisterDraft[],
): Generator<void, Layer[]> {
  const branches: { branch: ControlledBranch; layer: Layer }[] = [];
  for (const branch of part.controlled) {
    const { statement, position: inner } = branch.body;
    yield* followStatement(walk, inner, statement);
    branches.push({ branch, layer: inner.layer });
  }
  const clocked = createLayer(position.layer);
  const from = walk.process.assignments.length;
  if (part.clocked !== null) {
    yield* followStatement(walk, { ...part.clocked.position, layer: clocked }, part.clocked.statement);
  }
  const assignments = { from, until: walk.process.assignments.length };
  registers.push(...registersOf(walk, { clock: part.clock, branches, clocked, assignments }));
  return [...branches.map(({ layer }) => layer), clocked];
}

function* readPlain(walk: Walk, { top }: Extract<Part, { kind: 'plain' }>): Generator<void, Layer> {
  const layer = createLayer(top.position.layer);
  yield* followStatement(walk, { ...top.position, layer }, top.statement);
  return layer;
}

/** What follows in the process sees what this part has assigned. */
function adopt(into: Layer, from: Layer, nodes: NodeBuilder): void {
  for (const plane of ['now', 'next'] as const) {
    for (const [signal, slices] of from[plane]) {
      for (const slice of slices) writeSlice(into, plane, signal, slice, nodes);
    }
  }
}

function writtenBeside({ draft }: Walk, signal: number, { at }: Statement): Failure {
  return { reason: 'clock-written-beside-chain', args: { name: signalAt(draft, signal).name }, at };
}
