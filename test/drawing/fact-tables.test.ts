// The tables say what the picture shows: each fact of the data once, within the window, and what is cut is said.
import { describe, expect, it } from 'vitest';
import { factTables, settlingCaption, type TableOptions } from '../../server/src/drawing/fact-tables';
import type { PreviewData } from '../../server/src/report/preview-data';
import { previewOf, rippleOfTwo, toggles, traceOf } from './previews';

const whole: TableOptions = { radix: 'decimal', from: 0, to: 300, most: 100 };
const tablesOf = (data: PreviewData, options: Partial<TableOptions> = {}) =>
  Object.fromEntries(factTables(data, { ...whole, ...options }).map(({ caption, rows }) => [caption, rows]));

describe('the tables', () => {
  it('have every change of every trace, and every cause', () => {
    const data = rippleOfTwo();
    const tables = tablesOf(data);
    expect(tables.Traces.map(([name]) => name)).toEqual(data.traces.map(({ name }) => name));
    expect(tables.Traces[1]).toEqual(['q[1:0]', 'register', '0', '1 at 110 ps, 0 at 210 ps, 2 at 220 ps']);
    expect(tables['What happens, in order'].map(([, words]) => words)).toEqual(data.links.map(({ words }) => words));
    expect(tables.Readings).toEqual([
      ['q', 'q[1] q[0]', 'counts up, modulo 4', '0 from 0 ns, 1 from 110 ps, moving from 210 ps, 2 from 220 ps'],
    ]);
    expect(tables['Clock edges that changed nothing']).toEqual([
      ['q[1:0]', '100 ps', 'kept its value because rst holds it'],
    ]);
  });

  it('follow the window and the radix', () => {
    const tables = tablesOf(rippleOfTwo(), { from: 205, to: 215, radix: 'binary' });
    expect(tables.Traces[1]).toEqual(['q[1:0]', 'register', '01', '00 at 210 ps']);
    expect(tables['What happens, in order']).toEqual([['210 ps', 'q[0] moved at 210 ps']]);
    expect(tables.Readings[0][3]).toBe('01 from 110 ps, moving from 210 ps');
    expect(tables['Clock edges that changed nothing']).toBeUndefined();
  });

  it('say how much they leave out', () => {
    const at = Array.from({ length: 40 }, (_, index) => index + 1);
    const tables = tablesOf(previewOf({ traces: [traceOf('q', { changes: toggles(at) })] }), { most: 2 });
    expect(tables.Traces[0][3]).toBe('1 at 1 ps, 0 at 2 ps, and 38 more');
  });

  it('say in words what is hatched: between which instants, after which edge, and how', () => {
    const settling = [
      { from: 110, to: 130, rootEdge: 100, moves: 'once', exact: true },
      { from: 210, to: 240, rootEdge: 200, moves: 'many', exact: false },
      { from: 410, to: 440, rootEdge: 400, moves: 'once', exact: true },
    ] as const;
    const tables = tablesOf(previewOf({ traces: [traceOf('q', { settling })] }));
    expect(tables[settlingCaption]).toEqual([
      ['q', '110 ps', '130 ps', '100 ps', 'changes once'],
      ['q', '210 ps', '240 ps', '200 ps', 'may come and go, at the widest'],
    ]);
  });

  it('say where a value is in doubt, and which pulses come', () => {
    const pulse = { min: 5, typ: 5, max: 5 };
    const glitch = { trace: 0, at: 100, until: 105, from: '1', to: '2', pulse, words: 'a pulse' } as const;
    const tables = tablesOf(
      previewOf({
        traces: [traceOf('y', { doubts: [{ at: 50, words: 'two writers' }] })],
        glitches: [{ ...glitch, certainty: 'possible', harmless: true }],
      }),
    );
    expect(tables['Values in doubt']).toEqual([['y', '50 ps', 'two writers']]);
    expect(tables['Pulses that should not be there']).toEqual([['y', '100 ps', 'a pulse', 'possible, harmless']]);
  });
});
