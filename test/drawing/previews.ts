// Previews made by hand for the tests of drawing and page: small, and only as full as the drawing looks at.
import type { PreviewData, PreviewLink, PreviewTrace } from '../../server/src/report/preview-data';

export const span = { file: 'a.v', line: 3, column: 1, endLine: 3, endColumn: 2 };

export function traceOf(name: string, more: Partial<PreviewTrace> = {}): PreviewTrace {
  return {
    name,
    kind: 'register',
    group: 0,
    indent: 0,
    width: 1,
    parent: null,
    note: '',
    span,
    clock: null,
    start: '0',
    changes: { at: [], value: [], link: [] },
    held: [],
    settling: [],
    doubts: [],
    ...more,
  };
}

export function linkOf(signal: string, at: number, cause: number): PreviewLink {
  const words = `${signal} moved at ${at} ps`;
  return { signal, at, before: '0', after: '1', cause, kind: 'sampled', span, words };
}

/** Changes that alternate from a start of 0; each with a link of its own from `firstLink`. */
export function toggles(at: readonly number[], firstLink = 0): PreviewTrace['changes'] {
  return {
    at,
    value: at.map((_, index) => (index % 2 === 0 ? '1' : '0')),
    link: at.map((_, index) => firstLink + index),
  };
}

export function previewOf(more: Partial<PreviewData> = {}): PreviewData {
  return {
    foretick: '0.0.0',
    top: 'top',
    end: 1000,
    headline: [],
    drive: { clocks: [], resets: [], inputs: [] },
    delaySet: { name: 'unit', sheet: null, conditions: null, source: 'given', spread: false },
    start: '0',
    assumptions: [],
    groups: [{ name: 'clk', rootEdges: [] }],
    traces: [],
    readings: [],
    glitches: [],
    links: [],
    findings: [],
    counts: [],
    states: [],
    review: [],
    cautions: [],
    cut: null,
    whatIf: null,
    ...more,
  };
}

/** clk falls at 100 and 200 and takes q[0] and, over it, q[1] along; q[1:0] is their vector, read as a count. */
export function rippleOfTwo(): PreviewData {
  const links = [
    linkOf('clk', 50, -1),
    linkOf('clk', 100, -1),
    linkOf('q[0]', 110, 1),
    linkOf('clk', 150, -1),
    linkOf('clk', 200, -1),
    linkOf('q[0]', 210, 4),
    linkOf('q[1]', 220, 5),
  ];
  return previewOf({
    end: 300,
    groups: [
      { name: 'clk', rootEdges: [100, 200] },
      { name: null, rootEdges: [] },
    ],
    links,
    traces: [
      traceOf('clk', {
        kind: 'clock',
        changes: { at: [50, 100, 150, 200], value: ['1', '0', '1', '0'], link: [0, 1, 3, 4] },
      }),
      traceOf('q[1:0]', {
        indent: 1,
        width: 2,
        start: '00',
        changes: { at: [110, 210, 220], value: ['01', '00', '10'], link: [2, 5, 6] },
        held: [{ at: 100, cause: 1, words: 'kept its value because rst holds it' }],
      }),
      traceOf('q[1]', { indent: 1, parent: 1, changes: { at: [220], value: ['1'], link: [6] } }),
      traceOf('q[0]', { indent: 1, parent: 1, changes: { at: [110, 210], value: ['1', '0'], link: [2, 5] } }),
      traceOf('pin', { kind: 'input', group: 1 }),
    ],
    readings: [
      {
        name: 'q',
        bits: ['q[1]', 'q[0]'],
        after: 3,
        group: 0,
        stretches: [
          { from: 0, to: 110, value: '00' },
          { from: 110, to: 210, value: '01' },
          { from: 210, to: 220, value: null },
          { from: 220, to: 300, value: '10' },
        ],
        caption: 'counts up, modulo 4',
        count: 0,
      },
    ],
  });
}
