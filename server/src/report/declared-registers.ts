// Registers by the declaration that they come from: a declared name holds several where its bits are clocked apart, and has
// them once per instance of its module. What is said is what all instances share.

import {
  type RegisterStory,
  registerWords,
  shortClockWords,
  shortRatioWords,
  shortStageWords,
} from '../explain/register-words';
import type { Span } from '../text/place';
import type { ReportRegister } from './report';

export interface DeclaredRegisters extends SharedWords {
  /** The name in the declaration. */
  readonly span: Span;
}

export interface SharedWords {
  /** A few words each; empty where there is nothing to say, null where instances differ. */
  readonly short: Readonly<Record<'clock' | 'ratio' | 'stage', string | null>>;
  /** A sentence per register; where instances agree, of the first. */
  readonly lines: readonly string[];
}

/** Of one file, in source order. */
export function declaredRegisters(registers: readonly ReportRegister[], file: string): readonly DeclaredRegisters[] {
  const here = registers.filter(({ span }) => span.file === file);
  return groupedBy(here, ({ span }) => `${span.line}:${span.column}`).map((registers) => ({
    span: registers[0].span,
    ...sharedWords(registers),
  }));
}

/** Of all registers of one declaration, at least one. */
export function sharedWords(registers: readonly ReportRegister[]): SharedWords {
  const instances = groupedBy(registers, ({ signal }) => signal);
  const short = {
    clock: common(instances, shortClockWords),
    ratio: common(instances, shortRatioWords),
    stage: common(instances, shortStageWords),
  };
  const agree = Object.values(short).every((words) => words !== null);
  const shared = instances.length > 1 ? [`the same in all ${instances.length} instances`] : [];
  const lines = agree ? [...linesOf(instances[0]), ...shared] : linesOf(registers);
  return { short, lines };
}

function common<Item>(items: readonly Item[], wordsOf: (item: Item) => string): string | null {
  const words = new Set(items.map(wordsOf));
  return words.size === 1 ? [...words][0] : null;
}

const mostLines = 8;

function linesOf(registers: readonly RegisterStory[]): readonly string[] {
  const left = registers.length - mostLines;
  return [...registers.slice(0, mostLines).map(registerWords), ...(left > 0 ? [`and ${left} more`] : [])];
}

/** Groups in the order of their first item. */
function groupedBy<Item>(items: readonly Item[], keyOf: (item: Item) => string): readonly (readonly Item[])[] {
  const groups = new Map<string, Item[]>();
  for (const item of items) groups.set(keyOf(item), [...(groups.get(keyOf(item)) ?? []), item]);
  return [...groups.values()];
}
