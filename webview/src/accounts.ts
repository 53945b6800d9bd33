// The account of the edge in focus, as lines to be shown: the change and its causes, the pulse it is part of, and why the
// edges after it changed nothing. Every sentence comes with the data; here they are only picked.

import { valueText } from '../../server/src/drawing/digits';
import type { Scene } from '../../server/src/drawing/scene';
import type { View } from '../../server/src/drawing/view';
import type { PreviewTrace } from '../../server/src/report/preview-data';
import { timeWords } from '../../server/src/text/time-words';

export interface AccountLine {
  readonly kind: 'edge' | 'cause' | 'pulse' | 'held';
  readonly words: string;
  /** Index of the link that is told of; null where a line tells of none. */
  readonly link: number | null;
}

/** Causes told at once: the ones behind them are a step upstream away. */
const mostCauses = 24;

export function accountLines(scene: Scene, view: View): readonly AccountLine[] {
  const { focus } = view;
  if (focus === null) return [];
  const trace = scene.data.traces[focus.trace];
  const from = focus.change < 0 ? 0 : trace.changes.at[focus.change];
  const until = trace.changes.at[focus.change + 1] ?? scene.data.end;
  return [
    ...(focus.change < 0 ? [startLine(trace, view)] : changeLines(scene, view, { trace, change: focus.change })),
    ...pulseLines(scene, focus.trace, from),
    ...heldLines(scene, focus.trace, { from, until }),
  ];
}

function startLine({ name, names, start }: PreviewTrace, view: View): AccountLine {
  return { kind: 'edge', words: `${name} starts at ${valueText(start, view.radix, names)}`, link: null };
}

/** Of a vector first the value that it comes to: the account is that of the bit that moved last. */
function changeLines(
  { data: { links } }: Scene,
  view: View,
  { change, trace }: { readonly trace: PreviewTrace; readonly change: number },
): readonly AccountLine[] {
  const { at, link: linkOf, value } = trace.changes;
  const words = `${trace.name} is ${valueText(value[change], view.radix, trace.names)} from ${timeWords(at[change])}`;
  const lines: AccountLine[] = trace.width > 1 ? [{ kind: 'edge', words, link: null }] : [];
  let link = linkOf[change];
  while (link >= 0 && link < links.length && lines.length <= mostCauses) {
    lines.push({ kind: lines.length === 0 ? 'edge' : 'cause', words: links[link].words, link });
    link = links[link].cause;
  }
  return lines;
}

function pulseLines({ glitches }: Scene, trace: number, time: number): readonly AccountLine[] {
  return glitches[trace]
    .filter(({ at, until }) => at <= time && time <= until)
    .map(({ words }) => ({ kind: 'pulse', words, link: null }));
}

/** Active edges between this change and the next that changed nothing: the first of them tells why. */
function heldLines(
  { data }: Scene,
  trace: number,
  { from, until }: { from: number; until: number },
): readonly AccountLine[] {
  const { held, name } = data.traces[trace];
  const between = held.filter(({ at }) => at > from && at < until);
  if (between.length === 0) return [];
  const more = between.length - 1;
  const rest = more === 0 ? '' : `; ${more} more ${more === 1 ? 'edge' : 'edges'} before the next change`;
  const words = `at ${timeWords(between[0].at)} ${name} ${between[0].words}${rest}`;
  return [{ kind: 'held', words, link: between[0].cause < 0 ? null : between[0].cause }];
}
