// `return`, `break` and `continue` (IEEE 1800-2017 12.8) as the `disable` of a block that they stand for: each loop that is
// left gets a block around itself or its body, with a name that no text could use; a function is left by its own.

import type { Reader } from './reader';
import { atOf, childrenOf, isLeaf, kindOf, unwrap } from './flat-tree';
import { readExpression } from './expressions';
import type { JumpTargets, LoopTarget } from './jump-targets';
import type { At, Named, Statement } from './tables';

/** The body of a loop, read where its jumps mean this loop, and what the loop becomes around it. */
export interface OpenLoop {
  readonly body: Statement;
  around(loop: Statement): Statement;
}

export function readLoopBody({ jumps }: Reader, at: At, read: () => Statement): OpenLoop {
  const target: LoopTarget = { at, number: jumps.loops.length, isBroken: false, isContinued: false };
  jumps.loops.push(target);
  const body = read();
  jumps.loops.pop();
  return {
    body: target.isContinued ? blockAround(body, labelOf(target, 'continue')) : body,
    around: (loop) => (target.isBroken ? blockAround(loop, labelOf(target, 'break')) : loop),
  };
}

function blockAround(statement: Statement, label: Named): Statement {
  return { kind: 'block', at: statement.at, label, parallel: false, declarations: [], body: [statement] };
}

/** A blank keeps it apart from whatever a text may declare, the place from every other loop. */
function labelOf({ at, number }: LoopTarget, word: 'break' | 'continue'): Named {
  return { ...at, name: `${word} ${at.start} ${number}` };
}

/** Null where there is nothing around that it could leave. */
export function readJump(reader: Reader, node: number): Statement | null {
  const parts = childrenOf(reader.tree, node);
  const at = atOf(reader.tree, node);
  const { loops, subroutines } = reader.jumps;
  const word = kindOf(reader.tree, parts.length === 0 ? node : unwrap(reader.tree, parts[0]));
  if (word === 'return') {
    const around = subroutines.at(-1);
    const value = parts.find((part, index) => index > 0 && !isMark(reader, part));
    return around === undefined ? null : readReturn(reader, at, around, value ?? null);
  }
  const loop = loops.at(-1);
  if (loop === undefined || (word !== 'break' && word !== 'continue')) return null;
  if (word === 'break') loop.isBroken = true;
  else loop.isContinued = true;
  return { kind: 'disable', at, label: labelOf(loop, word) };
}

function isMark(reader: Reader, part: number): boolean {
  return isLeaf(reader.tree, part) && kindOf(reader.tree, part) === ';';
}

function readReturn(
  reader: Reader,
  at: At,
  { hasResult, name }: JumpTargets['subroutines'][number],
  value: number | null,
): Statement {
  const leave: Statement = { kind: 'disable', at, label: name };
  if (value === null || !hasResult) return leave;
  const target = { kind: 'name', at, name: name.name } as const;
  const assign: Statement = {
    kind: 'assign',
    at,
    blocking: true,
    target,
    value: readExpression(reader, value),
    delay: null,
    event: null,
  };
  return { kind: 'block', at, label: null, parallel: false, declarations: [], body: [assign, leave] };
}
