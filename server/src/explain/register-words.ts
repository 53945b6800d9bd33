// A register in words: short ones for a hint behind its declaration, whole sentences for whoever asks. A declaration may hold
// several registers, where its bits are clocked apart: the short words then give the first and the last.

import { listWords } from './words';

/** Of the report; names in full. */
export interface RegisterStory {
  readonly name: string;
  readonly clock: { readonly signal: string; readonly written: string; readonly edge: 'rising' | 'falling' };
  readonly root: { readonly signal: string } | null;
  readonly roots: readonly string[];
  readonly stage: number;
  readonly enable: { readonly signal: string; readonly active: 'high' | 'low' } | null;
  /** `p/q` root periods per period of its output. */
  readonly ratio: string | null;
  readonly constant: boolean;
  readonly start: string;
}

/** `clk falling`; `clk…q[2] falling` for bits clocked one by the other. At least one register. */
export function shortClockWords(registers: readonly RegisterStory[]): string {
  const edges = new Set(registers.map(({ clock }) => clock.edge));
  const clocks = ends(registers.map(({ clock }) => clock.written));
  return edges.size === 1 ? `${clocks} ${registers[0].clock.edge}` : clocks;
}

/** `÷16`; `÷2…16`; empty where it is not known of all. */
export function shortRatioWords(registers: readonly RegisterStory[]): string {
  if (registers.every(({ constant }) => constant)) return 'never changes';
  const ratios = registers.map(({ ratio }) => ratio).filter((ratio) => ratio !== null);
  return ratios.length < registers.length ? '' : `÷${ends(ratios.map(wholeOr))}`;
}

/** `stage 3`, `stage 1…4`; empty where the root clocks all of them itself: nothing is worth a word there. */
export function shortStageWords(registers: readonly RegisterStory[]): string {
  const stages = registers.map(({ stage }) => stage);
  const deepest = Math.max(...stages);
  return deepest === 1 ? '' : `stage ${ends([`${Math.min(...stages)}`, `${deepest}`])}`;
}

function ends(words: readonly string[]): string {
  return new Set(words).size === 1 ? words[0] : `${words[0]}…${words[words.length - 1]}`;
}

/** Clock and place in the chain, how often it repeats, when it loads. */
export function registerWords(register: RegisterStory): string {
  const { clock, enable, name } = register;
  const loads = enable === null ? '' : `; it loads only while ${enable.signal} is ${enable.active}`;
  const samples = `${name} samples at the ${clock.edge} edge of ${clock.written}`;
  return `${samples}${rootWords(register)}${repetitionWords(register)}${loads}`;
}

function rootWords({ clock, root, roots, stage }: RegisterStory): string {
  if (root === null)
    return roots.length > 1 ? `, which comes from ${listWords(roots)}` : ', whose root clock is not known';
  if (stage > 1) {
    const between = stage === 2 ? '1 flip-flop' : `${stage - 1} flip-flops`;
    return `, ${between} behind the root clock ${root.signal} (stage ${stage})`;
  }
  return root.signal === clock.written ? '' : `, which comes from ${root.signal}`;
}

function repetitionWords({ constant, ratio, root, start }: RegisterStory): string {
  if (constant) return `; it never leaves its start value ${start}`;
  if (ratio === null || root === null) return '';
  const [periods, times] = ratio.split('/');
  if (ratio === '1/1') return `; as driven it repeats in every period of ${root.signal}`;
  if (times === '1') return `; as driven it repeats every ${periods} periods of ${root.signal}`;
  return `; as driven it repeats ${times} times in ${periods} periods of ${root.signal}`;
}

/** `16/1` is 16. */
function wholeOr(ratio: string): string {
  return ratio.endsWith('/1') ? ratio.slice(0, -2) : ratio;
}
