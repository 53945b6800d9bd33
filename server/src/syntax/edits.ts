// Small changes made to a unit's text before it is parsed, so that damage in one place does not spread. What
// is read keeps the offsets and the words of the text as it was.

import type { OffsetMap } from './copy-tree';

/** Replaces a stretch; an insertion where `start` equals `end`. */
export interface Edit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
  /** Where the construct begins that the edit belongs to. */
  readonly owner: number;
}

/** Edits of what begins in the stretch: not the closing word that something around it needs at its end. */
export function editsWithin(edits: readonly Edit[], start: number, end: number): readonly Edit[] {
  return edits.filter((edit) => edit.owner >= start && edit.start >= start && edit.end <= end);
}

export interface EditedText {
  readonly text: string;
  /** A map for one pass over rising offsets. */
  openMap(): OffsetMap;
}

/** Edits may come in any order and do not overlap; of insertions at one place the inner construct's is first. */
export function applyEdits(original: string, edits: readonly Edit[]): EditedText {
  const sorted = [...edits].sort(
    (left, right) => left.start - right.start || left.end - right.end || right.owner - left.owner,
  );
  let text = '';
  let offset = 0;
  const placed: PlacedEdit[] = [];
  for (const edit of sorted) {
    text += original.slice(offset, edit.start);
    placed.push({ edit, from: text.length, to: text.length + edit.text.length });
    text += edit.text;
    offset = edit.end;
  }
  return { text: text + original.slice(offset), openMap: () => mapOver(placed) };
}

interface PlacedEdit {
  readonly edit: Edit;
  /** Where the replacement stands in the edited text. */
  readonly from: number;
  readonly to: number;
}

/** Inside a replacement, everything is at the start of what was replaced. */
function mapOver(placed: readonly PlacedEdit[]): OffsetMap {
  let index = 0;
  let shift = 0;
  return (offset) => {
    for (; index < placed.length && placed[index].to <= offset; index += 1) {
      shift = placed[index].edit.end - placed[index].to;
    }
    const isInside = index < placed.length && offset > placed[index].from;
    return isInside ? placed[index].edit.start : offset + shift;
  };
}
