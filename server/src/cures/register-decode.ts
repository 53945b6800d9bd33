// A decode that passes wrong values on its way is registered. Either what the next state decodes to is, which comes in the
// same period; or the decode as it stands, which comes one period later. For decodes written as one continuous assignment,
// or in a process of their own.

import type { Finding, FindingId } from '../hazards/finding';
import type { CureContext, CureRule, Later, Proposal } from './cure';
import { decodesOf, type DecodeText } from './decode-text';
import { inserting, type UnitEdit } from './edits';
import { nextExpression } from './next-expression';
import { createNextWires, type NextWires } from './next-wires';
import { createSampling, type Sampling, samplingOfNext, samplingOfRoot } from './sampling';
import { listWords } from '../explain/words';

const ids: readonly FindingId[] = ['decoded-glitch', 'glitch-into-clock', 'glitch-into-reset', 'glitch-into-latch'];

export const registerDecode: readonly CureRule[] = ids.flatMap((finding) => [
  { finding, propose: decodeNext },
  { finding, propose: decodeLate },
]);

function decodeNext(context: CureContext, finding: Finding): Proposal | null {
  const decodes = decodesOf(context, finding);
  if (decodes === null) return null;
  const { unit } = decodes[0];
  const edits: UnitEdit[] = [];
  const wires = createNextWires(context, { unit }, Math.min(...decodes.map(({ start }) => start)));
  const starts: string[] = [];
  for (const decode of decodes) {
    const made = nextOf(context, wires, decode);
    if (made === null) return null;
    edits.push(...made.edits);
    if (made.start !== null) starts.push(made.start);
  }
  const names = listWords(decodes.map(({ local }) => local));
  return {
    title: `register ${names}, decoded from the next state: in the same period`,
    edits: [...wires.edits(), ...edits],
    promise: { kind: 'readings' },
    differs: [`${names} ${decodes.length === 1 ? 'comes' : 'come'} straight from a flip-flop`, ...starts],
    frees: decodes.flatMap(({ names: bits }) => bits),
  };
}

function nextOf(
  context: CureContext,
  wires: NextWires,
  decode: DecodeText,
): { readonly edits: readonly UnitEdit[]; readonly start: string | null } | null {
  const next = nextExpression(context, wires, decode.unit, decode.whole, decode.targets);
  if (next === null || next.registers.length === 0) return null;
  const sampling = samplingOfNext(context, decode, next.registers);
  if (sampling === null) return null;
  return { edits: editsOf(context, decode, next.text, sampling), start: sampling.startAssumed };
}

function decodeLate(context: CureContext, finding: Finding): Proposal | null {
  const decodes = decodesOf(context, finding);
  const root = String(finding.facts.root);
  if (decodes === null) return null;
  const sampling = samplingOfRoot(context, decodes[0], root);
  if (sampling === null) return null;
  const names = listWords(decodes.map(({ local }) => local));
  const later: Later = {
    names: decodes.flatMap(({ signals }) => signals.map(({ name }) => name)),
    clock: root,
    edge: sampling.rootEdge,
  };
  return {
    title: `register ${names} at ${sampling.clock}: one period later`,
    edits: decodes.flatMap((decode) => editsOf(context, decode, textOfWhole(context, decode), sampling)),
    promise: { kind: 'readings', later },
    differs: [`${names} ${decodes.length === 1 ? 'comes' : 'come'} one period of ${root} later than before`],
    frees: decodes.flatMap(({ names: bits }) => bits),
  };
}

function textOfWhole({ reading }: CureContext, { unit, whole }: DecodeText): string {
  return reading.units[unit].text.slice(whole.at.start, whole.at.end);
}

/** The value gives way to a register that is written before it; a process of its own becomes clocked. */
function editsOf(context: CureContext, decode: DecodeText, next: string, sampling: Sampling): readonly UnitEdit[] {
  const { lines, replaced } = createSampling(context, decode, next, sampling);
  return [
    ...(lines === '' ? [] : [inserting(decode.unit, decode.start, lines)]),
    ...replaced.map((one): UnitEdit => ({ unit: decode.unit, ...one })),
  ];
}
