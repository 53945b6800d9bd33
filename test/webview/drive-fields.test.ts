// The drive as fields: what is assumed is marked with its reason, what is chosen can be dropped, and names of a design
// do no harm.
import { describe, expect, it } from 'vitest';
import type { StudyChoices } from '../../server/src/editor/panel-messages';
import type { PreviewData } from '../../server/src/report/preview-data';
import { type DriveField, driveFields, startReason } from '../../webview/src/drive-fields';
import { previewOf, span } from '../drawing/previews';

const none: StudyChoices = { top: null, delays: null, start: null, clocks: {}, resets: {}, inputs: {}, whatIf: [] };

function designOf(more: Partial<PreviewData> = {}): PreviewData {
  return previewOf({
    drive: {
      clocks: [
        {
          signal: 'clk',
          period: 20_000,
          high: 10_000,
          phase: 10_000,
          source: 'setting',
          highSource: 'setting',
          phaseSource: 'setting',
        },
      ],
      resets: [
        {
          signal: 'rst_n',
          active: 'low',
          periods: 2,
          source: 'inferred',
          activeSource: 'inferred',
          periodsSource: 'given',
        },
      ],
      inputs: [
        { signal: 'mode', value: '0011', source: 'given', moves: null },
        { signal: 'start', value: '1', source: 'name', moves: null },
      ],
    },
    assumptions: [
      { about: 'clk', value: '20000 ps', source: 'setting', reason: 'no period of clk is stated', span },
      { about: 'start', value: '1', source: 'name', reason: 'called start', span },
      { about: 'start', value: '0', source: 'setting', reason: 'one register has no start value', span },
    ],
    ...more,
  });
}

function fieldNamed(key: string, choices = none, data = designOf()): DriveField {
  const field = driveFields(data, choices).find((each) => each.key === key);
  if (field === undefined) throw new Error(`no field ${key}`);
  return field;
}

function written(field: DriveField, text: string, choices = none): StudyChoices {
  const result = field.write(text, choices);
  if (result.kind === 'refused') throw new Error(result.expected);
  return result.value;
}

describe('fields', () => {
  it('say what holds, in the order of the drive', () => {
    expect(driveFields(designOf(), none).map(({ key, value }) => [key, value])).toEqual([
      ['clock clk period', '20 ns'],
      ['clock clk high', '10 ns'],
      ['clock clk phase', '10 ns'],
      ['reset rst_n active', 'low'],
      ['reset rst_n periods', '2 periods'],
      ['input mode', "4'b0011"],
      ['input start', '1'],
    ]);
  });

  it('tell what is assumed, and why, from what is stated and what is chosen', () => {
    expect(fieldNamed('clock clk period')).toMatchObject({ origin: 'assumed', reason: 'no period of clk is stated' });
    expect(fieldNamed('input mode').origin).toBe('stated');
    const choices = written(fieldNamed('clock clk period'), '50 MHz');
    expect(fieldNamed('clock clk period', choices).origin).toBe('chosen');
    expect(fieldNamed('clock clk phase', choices).origin).toBe('assumed');
    expect(fieldNamed('reset rst_n active').origin).toBe('assumed');
    expect(fieldNamed('reset rst_n periods').origin).toBe('stated');
  });

  it('tell the start value from a port of that name', () => {
    expect(startReason(designOf())).toBe('one register has no start value');
    expect(fieldNamed('input start').reason).toBe('called start');
    expect(startReason(designOf({ assumptions: designOf().assumptions.slice(0, 2) }))).toBeNull();
  });
});

describe('an input that moves', () => {
  const changes = [
    { at: 35_000, value: '1' },
    { at: 75_000, value: '0' },
  ];
  const moving = (moves: NonNullable<PreviewData['drive']['inputs'][number]['moves']>) =>
    designOf({
      drive: { clocks: [], resets: [], inputs: [{ signal: 'en', value: '0', source: 'given', moves }] },
    });

  it('says how, in words that can be written too', () => {
    const once = fieldNamed('input en', none, moving({ changes, changesTotal: 2, everyPs: null }));
    expect([once.label, once.value]).toEqual(['moves', '0, 1 at 35 ns, 0 at 75 ns']);
    expect(written(once, once.value).inputs.en).toMatchObject({ levels: [{ atPs: 0 }, { atPs: 35_000 }, {}] });
    const again = fieldNamed('input en', none, moving({ changes, changesTotal: 2, everyPs: 90_000 }));
    expect(again.value).toBe('0, 1 at 35 ns, 0 at 75 ns again every 90 ns');
  });

  it('is shown by its first value where it is long, or overlaps itself', () => {
    const long = fieldNamed('input en', none, moving({ changes, changesTotal: 900, everyPs: null }));
    expect([long.label, long.value]).toEqual(['moves, at first', '0']);
    const lapping = fieldNamed('input en', none, moving({ changes, changesTotal: 2, everyPs: 60_000 }));
    expect(lapping.label).toBe('moves, at first');
  });

  it('as chosen here is shown as it was chosen', () => {
    const data = moving({ changes, changesTotal: 2, everyPs: null });
    const choices = written(fieldNamed('input en', none, data), 'pulse at 35 ns for 40 ns');
    const field = fieldNamed('input en', choices, data);
    expect([field.label, field.value, field.origin]).toEqual(['moves', 'pulse at 35 ns for 40 ns', 'chosen']);
    expect(field.withdraw(choices)).toEqual(none);
  });
});

describe('writing', () => {
  it('of a level and of a high time', () => {
    const high = written(fieldNamed('clock clk high'), '4 ns');
    expect(high.clocks).toEqual({ clk: { periodPs: null, highPs: 4_000, phasePs: null } });
    const level = written(fieldNamed('reset rst_n active'), ' High ', written(fieldNamed('reset rst_n periods'), '5'));
    expect(level.resets).toEqual({ rst_n: { active: 'high', periods: 5 } });
    expect(fieldNamed('reset rst_n active').withdraw(level).resets).toEqual({ rst_n: { active: null, periods: 5 } });
    expect(fieldNamed('reset rst_n active').write('1', none)).toEqual({ kind: 'refused', expected: 'high or low' });
  });

  it('changes its own choice and no other', () => {
    const first = written(fieldNamed('clock clk period'), '40 ns', { ...none, top: 'm' });
    const second = written(fieldNamed('clock clk phase'), '5 ns', first);
    const third = written(fieldNamed('input mode'), "4'hf", written(fieldNamed('reset rst_n periods'), '3', second));
    expect(third).toEqual({
      ...none,
      top: 'm',
      clocks: { clk: { periodPs: 40_000, highPs: null, phasePs: 5000 } },
      resets: { rst_n: { active: null, periods: 3 } },
      inputs: { mode: "4'hf" },
    });
  });

  it('of what cannot be read says what is expected', () => {
    for (const { write } of driveFields(designOf(), none)) {
      expect(write('nonsense', none)).toMatchObject({ kind: 'refused', expected: expect.any(String) });
    }
  });

  it('is taken back field by field, and leaves nothing behind', () => {
    for (const field of driveFields(designOf(), none)) {
      const text = field.key.startsWith('clock') ? '5 ns' : field.key.endsWith('active') ? 'high' : '1';
      expect(field.withdraw(written(field, text))).toEqual(none);
    }
    const both = written(fieldNamed('clock clk phase'), '5 ns', written(fieldNamed('clock clk period'), '40 ns'));
    expect(fieldNamed('clock clk period').withdraw(both).clocks).toEqual({
      clk: { periodPs: null, highPs: null, phasePs: 5000 },
    });
  });

  it('takes any name that a design may have', () => {
    for (const signal of ['__proto__', 'constructor', 'toString', '<b>', 'a b']) {
      const data = designOf({
        drive: { clocks: [], resets: [], inputs: [{ signal, value: '0', source: 'name', moves: null }] },
      });
      const field = fieldNamed(`input ${signal}`, none, data);
      expect(field.origin).toBe('assumed');
      const choices = written(field, '1');
      expect(Object.entries(choices.inputs)).toEqual([[signal, '1']]);
      expect(fieldNamed(`input ${signal}`, choices, data).origin).toBe('chosen');
    }
  });
});
