// The findings as SARIF 2.1.0, against the schema that OASIS publishes with it (held offline in the package `schemastore`).

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import Ajv from 'ajv';
import type { Log, Result } from 'sarif';
import { expect, test } from 'vitest';
import { writeSarif } from '../../server/src/report/write-sarif';
import { published } from '../published/published';
import { reportOf } from '../tools/report-of';

const schemaFile = createRequire(import.meta.url).resolve('schemastore/schemas/json/sarif-2.1.0.json');
const schema: Record<string, unknown> = JSON.parse(readFileSync(schemaFile, 'utf8'));
const ajv = new Ajv({ strict: false, allErrors: true, validateFormats: false, unicodeRegExp: false });
const validate = ajv.compile(schema);

const design = `module m(input clk, input other, input d, output reg [1:0] q, output reg r);
  initial q = 0;
  always @(negedge clk) q[0] <= ~q[0];
  always @(negedge q[0]) q[1] <= ~q[1];
  reg s;
  always @(posedge clk) s <= d;
  always @(posedge other) r <= s
endmodule
`;

async function logOf(text: string, project: object = {}, path = 'm.v'): Promise<Log> {
  return JSON.parse(writeSarif(await reportOf([{ path, text }], { project: JSON.stringify(project) })));
}

function errorsOf(log: unknown): readonly string[] {
  return validate(log) ? [] : (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
}

const resultsOf = (log: Log): readonly Result[] => log.runs[0].results ?? [];

published(
  ['FMT-1', 'FMT-2', 'FMT-3', 'FMT-4', 'FMT-5', 'FMT-6', 'FMT-7', 'FMT-8', 'FMT-9', 'FMT-12', 'FMT-15'],
  'a log with findings of reading and of the design, and one without any, fit the schema',
  async () => {
    for (const text of [design, design.replace('<= s\n', '<= s;\n'), 'module empty(input a); endmodule', '']) {
      const log = await logOf(text);
      expect(errorsOf(log)).toEqual([]);
      expect(log.version).toBe('2.1.0');
    }
    expect(resultsOf(await logOf(design)).map(({ ruleId }) => ruleId)).toContain('syntax');
    expect(resultsOf(await logOf(design)).map(({ ruleId }) => ruleId)).toContain('ripple-chain');
  },
);

published(
  ['FMT-13', 'FMT-14', 'FMT-22'],
  'places count from one, the end exclusive, columns in UTF-16 units',
  async () => {
    const log = await logOf('module 𐐀(input a); endmodule module m(input b, output y); assign y = c; endmodule');
    const [{ columnKind }] = log.runs;
    expect(columnKind).toBe('utf16CodeUnits');
    for (const { level, locations, relatedLocations = [] } of [...resultsOf(log), ...resultsOf(await logOf(design))]) {
      expect(['none', 'note', 'warning', 'error']).toContain(level);
      for (const place of [...(locations ?? []), ...relatedLocations]) {
        const { endColumn = 0, endLine = 0, startColumn = 0, startLine = 0 } = place.physicalLocation?.region ?? {};
        expect(Math.min(startLine, startColumn, endLine, endColumn)).toBeGreaterThanOrEqual(1);
      }
    }
    const undeclared = resultsOf(await logOf('module m(output y); /* 𐐀 */ assign y = c; endmodule')).find(
      ({ ruleId }) => ruleId === 'unresolved-name',
    );
    // The letter outside the basic plane counts two: c stands 39 units behind the start of the line.
    const at = 'module m(output y); /* 𐐀 */ assign y = c'.length;
    expect(undeclared?.locations?.[0].physicalLocation?.region).toEqual({
      startLine: 1,
      startColumn: at,
      endLine: 1,
      endColumn: at + 1,
    });
  },
);

test('the schema can refuse', async () => {
  const log = await logOf(design);
  const { runs, ...rest } = log;
  expect(errorsOf(rest)).not.toEqual([]);
  expect(errorsOf({ ...log, version: '2.0.0' })).not.toEqual([]);
  expect(
    errorsOf({ ...log, runs: [{ ...runs[0], results: [{ message: { text: 'x' }, level: 'hint' }] }] }),
  ).not.toEqual([]);
});

test('each result names its rule, and rules are those that are used', async () => {
  const [{ results = [], tool }] = (await logOf(design)).runs;
  for (const { ruleId, ruleIndex } of results) expect(tool.driver.rules?.[ruleIndex ?? -1].id).toBe(ruleId);
  expect(new Set(results.map(({ ruleId }) => ruleId)).size).toBe(tool.driver.rules?.length);
});

test('what a person accepted is suppressed, with the reason', async () => {
  const accepted = [{ id: 'ripple-chain', signal: 'q', reason: 'a lamp, read by eye' }];
  const results = resultsOf(await logOf(design, { accepted }));
  const chain = results.find(({ ruleId }) => ruleId === 'ripple-chain');
  expect(chain?.suppressions).toEqual([{ kind: 'external', justification: 'a lamp, read by eye' }]);
  expect(results.filter(({ suppressions }) => suppressions !== undefined)).toHaveLength(1);
});

test.each([
  ['rtl/ü lamp#1.v', 'rtl/%C3%BC%20lamp%231.v'],
  ['/project/a.v', 'file:///project/a.v'],
  ['C:/project/a b.v', 'file:///C:/project/a%20b.v'],
])('the path %s is the reference %s', async (path, uri) => {
  const [first] = resultsOf(await logOf(design, {}, path));
  expect(first.locations?.[0].physicalLocation?.artifactLocation?.uri).toBe(uri);
});
