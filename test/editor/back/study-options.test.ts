import { expect, it } from 'vitest';
import { studyOptionsOf } from '../../../server/src/editor/back/study-options';
import { noChoices } from '../../../server/src/editor/no-choices';
import { readSettings } from '../../../server/src/editor/settings';
import { parseProject } from '../../../server/src/report/project';

const project = parseProject(
  JSON.stringify({
    delays: 'ideal',
    start: 'x',
    clocks: { clk: { periodPs: 20_000, highPs: 8_000 }, slow: { periodPs: 90_000 } },
    resets: { rst: { active: 'low', periods: 3 } },
    inputs: { a: '1', b: '0' },
    limits: { unroll: 9 },
  }),
  'foretick.json',
);

it('settings of the editor win over the project file', () => {
  const settings = readSettings({ delays: '74HC393', start: '', limits: { width: 7, unroll: 'many' } });
  const { delays, drive, limits } = studyOptionsOf(project, settings, noChoices);
  expect([delays, drive.start, limits.unroll, limits.width]).toEqual(['74HC393', 'x', 9, 7]);
});

it('choices in a panel win over both, name by name', () => {
  const { delays, drive } = studyOptionsOf(project, readSettings({ delays: '74HC393', start: '0' }), {
    ...noChoices,
    delays: 'unit',
    start: '1',
    clocks: { clk: { periodPs: 40_000, highPs: null, phasePs: 5 } },
    resets: { rst: { active: null, periods: 1 }, clear: { active: 'high', periods: null } },
    inputs: { b: '1' },
  });
  expect([delays, drive.start]).toEqual(['unit', '1']);
  expect(drive.clocks).toEqual({
    clk: { periodPs: 40_000, highPs: 8_000, phasePs: 5 },
    slow: { periodPs: 90_000, highPs: null, phasePs: null },
  });
  expect(drive.resets).toEqual({ rst: { active: 'low', periods: 1 }, clear: { active: 'high', periods: null } });
  expect(drive.inputs).toMatchObject({ a: '1', b: '1' });
});

it('what is not set, or of the wrong kind, says nothing', () => {
  const nothing = readSettings(null);
  expect(nothing).toEqual({
    delays: null,
    start: null,
    hints: { clock: true, ratio: true, stage: true },
    diagnostics: { harmless: true },
    limits: {},
  });
  expect(readSettings({ delays: 5, start: 0, hints: [], limits: { width: -1, depth: 1.5 } })).toEqual(nothing);
});
