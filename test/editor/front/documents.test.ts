import { expect, it } from 'vitest';
import { applyChange, createDocuments } from '../../../server/src/editor/front/documents';

const at = (line: number, character: number) => ({ line, character });

it('edits are applied in order, each to what the one before has left', () => {
  const documents = createDocuments();
  const uri = 'file:///project/a.v';
  documents.put({ uri, version: 1, text: 'one\ntwo\n', isUntouched: true });
  expect(documents.get(uri)?.isUntouched).toBe(true);
  const changed = documents.change(uri, 2, [
    { range: { start: at(0, 0), end: at(0, 3) }, text: '𐐀\nnew' },
    { range: { start: at(1, 3), end: at(2, 0) }, text: '' },
  ]);
  expect(changed).toEqual({ uri, version: 2, text: '𐐀\nnewtwo\n', isUntouched: false });
  expect(documents.change('file:///project/none.v', 1, [])).toBeNull();
  expect(documents.change(uri, 3, [{ text: 'whole' }])?.text).toBe('whole');
  documents.close(uri);
  expect(documents.all()).toEqual([]);
});

it('a range that runs backwards takes nothing away', () => {
  expect(applyChange('abc', { range: { start: at(0, 2), end: at(0, 1) }, text: '-' })).toBe('ab-c');
});
