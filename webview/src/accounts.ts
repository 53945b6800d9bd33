// The account of the edge in focus, as lines to be shown: the change and its causes, or why the value was kept.

import { valueText } from '../../server/src/drawing/digits';
import type { View } from '../../server/src/drawing/view';
import type { PreviewData, PreviewLink } from '../../server/src/report/preview-data';

export function accountLines(data: PreviewData, view: View): readonly string[] {
  const { focus } = view;
  if (focus === null) return [];
  const trace = data.traces[focus.trace];
  if (focus.change < 0)
    return [`${trace.name} starts at ${valueText(trace.start, view.radix)}`, ...heldLines(data, view)];
  const lines: string[] = [];
  let link: PreviewLink | undefined = data.links[trace.changes.link[focus.change]];
  while (link !== undefined) {
    lines.push(link.words);
    link = link.cause < 0 ? undefined : data.links[link.cause];
  }
  return [...lines, ...heldLines(data, view)];
}

/** Active edges between this change and the next that changed nothing: the first of them tells why. */
function heldLines(data: PreviewData, view: View): readonly string[] {
  const { focus } = view;
  if (focus === null) return [];
  const { changes, held } = data.traces[focus.trace];
  const from = focus.change < 0 ? 0 : changes.at[focus.change];
  const to = changes.at[focus.change + 1] ?? data.end;
  const between = held.filter(({ at }) => at > from && at < to);
  if (between.length === 0) return [];
  const more = between.length === 1 ? '' : ` (and at ${between.length - 1} more edges before the next change)`;
  return [between[0].words + more];
}
