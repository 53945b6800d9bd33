// The study on text: every circuit of the tests and examples gives a report that the published schema allows, the same
// bytes each time, and stages that run only when they are asked for.
import { readdirSync, readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020';
import { describe, expect, it } from 'vitest';
import { publishedSchemas } from '../../server/src/report/published-schemas';
import { study } from '../../server/src/report/study';
import { noSettings, optionsFrom } from '../../server/src/report/options';
import { noProject } from '../../server/src/report/project';
import { writeJson } from '../../server/src/report/write-json';
import { writePreviewText } from '../../server/src/report/write-preview-text';
import { writeText } from '../../server/src/report/write-text';
import { readCircuit } from '../tools/notes';
import { readyParser } from '../tools/parser';
import { studyOf, toEnd } from '../tools/report-of';

const validates = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(
  publishedSchemas()['report.schema.json'],
);

const folders = ['../../examples/', '../definitions/'].map((folder) => new URL(folder, import.meta.url));
const circuits = folders.flatMap((folder) =>
  readdirSync(folder)
    .filter((file) => file.endsWith('.v'))
    .map((file) => [file, readFileSync(new URL(file, folder), 'utf8')] as const),
);

describe('every circuit', () => {
  it.each(circuits)('%s has a report of the published form, and sentences for all of it', async (file, text) => {
    const { files } = readCircuit(file, text);
    const opened = await studyOf(files);
    const report = toEnd(opened.report());
    const json = writeJson(report);
    expect(validates(JSON.parse(json)), JSON.stringify(validates.errors)).toBe(true);
    expect(writeJson(toEnd((await studyOf(files)).report()))).toBe(json);
    const preview = toEnd(opened.preview());
    expect(JSON.parse(JSON.stringify(preview))).toEqual(preview);
    for (const text of [writeText(report), writePreviewText(preview)]) {
      expect(text).not.toMatch(/undefined|NaN|\[object|null/);
    }
    for (const { id, message } of report.findings)
      expect(message).not.toMatch(new RegExp(`^${id.replaceAll('-', ' ')}`));
  });

  it('is among them', () => {
    expect(circuits.length).toBeGreaterThan(30);
  });
});

describe('a study', () => {
  const files = [
    { path: 'a.v', text: 'module a(input clk, output reg q);\n always @(posedge clk) q <= ~q;\nendmodule\n' },
  ];
  const input = { files, provided: [], includeFolders: [], options: optionsFrom(noProject, noSettings) };

  it('reads before it elaborates, and each stage once', async () => {
    const parser = await readyParser();
    let parsed = 0;
    const parse = (text: string) => {
      parsed += 1;
      return parser.parse(text);
    };
    const counting = { ...parser, parse };
    const opened = study(input, counting);
    expect(parsed).toBe(0);
    expect(toEnd(opened.reading()).complaints).toEqual([]);
    const before = parsed;
    expect(before).toBeGreaterThan(0);
    const report = toEnd(opened.report());
    expect(toEnd(opened.report())).toBe(report);
    expect(toEnd(opened.preview())).toBe(toEnd(opened.preview()));
    expect(parsed).toBe(before);
  });

  it('may be left in the middle and asked again', async () => {
    const opened = study(input, await readyParser());
    const half = opened.report();
    half.next();
    expect(toEnd(opened.report()).top).toBe('a');
  });

  it('asks for includes as data', async () => {
    const asking = {
      ...input,
      files: [{ path: 'src/a.v', text: '`include "b.vh"\nmodule a; endmodule\n' }],
      includeFolders: ['inc'],
    };
    const opened = study(asking, await readyParser());
    expect(toEnd(opened.wanted())).toMatchObject({ includes: ['src/b.vh', 'inc/b.vh'], data: [], modules: [] });
    const given = study({ ...asking, provided: [{ path: 'inc/b.vh', text: '' }] }, await readyParser());
    expect(toEnd(given.wanted())).toMatchObject({ includes: [], data: [], modules: [] });
  });

  it('asks for modules by name', async () => {
    const asking = {
      ...input,
      files: [{ path: 'a.v', text: 'module a(input c); cell_b u(.c(c)); cell_a v(.c(c)); endmodule\n' }],
    };
    expect(toEnd(study(asking, await readyParser()).wanted()).modules).toEqual(['cell_a', 'cell_b']);
  });

  it('has no waves and no accounts without a design', async () => {
    const opened = study({ ...input, files: [] }, await readyParser());
    expect([toEnd(opened.design()), toEnd(opened.waves(1000)), toEnd(opened.accounts('q', 5))]).toEqual([
      null,
      null,
      null,
    ]);
    expect(toEnd(opened.preview())).toMatchObject({ top: null, traces: [] });
  });
});
