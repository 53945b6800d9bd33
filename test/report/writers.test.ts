// The writers: JSON that keeps the schema's order and validates, text that never says `no findings` alone.
import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020';
import { describe, expect, it } from 'vitest';
import { limitDefaults } from '../../server/src/budget';
import { publishedSchemas } from '../../server/src/report/published-schemas';
import type { Report } from '../../server/src/report/report';
import { reportShape } from '../../server/src/report/report-shape';
import { toolVersion } from '../../server/src/report/version';
import { writeJson } from '../../server/src/report/write-json';
import { writeText } from '../../server/src/report/write-text';
import { smallFinding, smallReport } from './small-report';

const { 'report.schema.json': reportSchema, 'project.schema.json': projectSchema } = publishedSchemas();
const validates = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(reportSchema);

describe('the report as JSON', () => {
  it('validates against the published schema', () => {
    expect(validates(JSON.parse(writeJson(smallReport))), JSON.stringify(validates.errors)).toBe(true);
  });

  it('stands in the order of the schema, whatever order it was built in', () => {
    const reversed = Object.fromEntries(Object.entries(smallReport).reverse()) as unknown as Report;
    expect(writeJson(reversed)).toBe(writeJson(smallReport));
    expect(Object.keys(JSON.parse(writeJson(reversed)))).toEqual(Object.keys(reportShape.fields));
  });

  it('refuses a number that JSON or a reader would bend', () => {
    const bent = (period: number): Report => ({
      ...smallReport,
      chains: [{ ...emptyChain, maxClockHz: period }],
    });
    expect(() => writeJson(bent(Number.POSITIVE_INFINITY))).toThrow('Infinity');
    expect(() => writeJson(bent(2 ** 53))).toThrow('9007199254740992');
  });

  it('is found wanting where a field is missing or of the wrong kind', () => {
    const { drive: _drive, ...rest } = smallReport;
    expect(validates(rest)).toBe(false);
    expect(validates({ ...smallReport, top: 3 })).toBe(false);
    expect(validates({ ...smallReport, findings: [{ ...smallFinding, id: 'ripple' }] })).toBe(false);
    expect(validates({ ...smallReport, findings: [{ ...smallFinding, id: 'syntax' }] })).toBe(false);
  });

  it('may gain fields', () => {
    expect(validates({ ...smallReport, later: 1, registers: [{ ...smallReport.registers[0], later: 1 }] })).toBe(true);
  });
});

const emptyChain: Report['chains'][number] = {
  root: 'clk',
  registers: ['q[0]', 'q[1]'],
  settle: null,
  skew: null,
  worst: null,
  maxClockHz: null,
  readableClockHz: null,
  toggleClockHz: null,
  why: null,
  span: smallFinding.span,
};

describe('the schema of the project file', () => {
  it('names every limit with its default', () => {
    const { properties } = projectSchema as {
      properties: { limits: { properties: Record<string, { default: number }> } };
    };
    const defaults = Object.entries(properties.limits.properties).map(([name, limit]) => [name, limit.default]);
    expect(Object.fromEntries(defaults)).toEqual(limitDefaults);
  });
});

describe('the report as text', () => {
  it('tells of drive, registers, readings and what was not seen', () => {
    const text = writeText(smallReport);
    expect(text).toContain('clk  20 ns (50 MHz), high for 10 ns, first rise at 10 ns  assumed');
    expect(text).toContain(
      'q[0]  stage 1  on clk falling  changes 1 ns after clk falling  repeats every 2 periods  line 2',
    );
    expect(text).toContain('counts up, modulo 4\n  0 1 2 3\n  passes 0 on the way from 1 to 2');
    expect(text).toContain('not chosen as top: bench; choose with --top');
    expect(text).toMatch(/not seen\n.*placement.*\n.*sign-off timing analysis/);
  });

  it('says `no findings` only beside what was not analyzed', () => {
    expect(writeText(smallReport)).toMatch(/findings\n {2}no findings\n.*not analyzed\n {2}nothing was left out/s);
    const skipped = { message: 'a class is not read', span: smallFinding.span };
    const holed = { ...smallReport, coverage: { ...smallReport.coverage, skipped: [skipped] } };
    expect(writeText(holed)).toMatch(
      /no findings in what was analyzed.*not analyzed\n {2}not read: 1 construct \(two.v:2:3\)/s,
    );
  });

  it('places a finding, its related places and its acceptance', () => {
    const accepted = { ...smallFinding, accepted: { reason: 'slow and meant' } };
    expect(writeText({ ...smallReport, findings: [accepted] })).toContain(
      '  two.v:2:3  warning  ripple-chain\n    q[1] is clocked by q[0]\n    see two.v:2:3: the first stage\n    accepted: slow and meant',
    );
  });
});

describe('the version', () => {
  it('is that of the package', () => {
    const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
    expect(toolVersion).toBe(version);
  });
});
