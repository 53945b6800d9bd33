// What the preview command leaves behind: the page beside the text, the picture alone, and where it says they are.
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { run } from './fake-world';

const toggle =
  'module toggle(input clk, output reg q);\n  initial q = 0;\n  always @(posedge clk) q <= ~q;\nendmodule\n';
const script = 'start("é")';
const style = 'p{color:red}';
const files = { 'a.v': toggle, 'package/dist/preview-page.js': script, 'package/dist/preview-page.css': style };

const digest = (text: string) => createHash('sha256').update(text, 'utf8').digest('base64');

describe('the preview command', () => {
  it('prints the text, writes the page, and says last where it is', async () => {
    const { complaint, output, written } = await run(files, 'preview', 'a.v');
    expect(complaint).toBe('');
    expect(output).toContain('clock domain clk');
    expect(output.endsWith('\npage: foretick-preview/preview.html\n')).toBe(true);
    expect(Object.keys(written)).toEqual(['foretick-preview/preview.html']);
  });

  it('lets only the script and style of the package run, by their digests', async () => {
    const { written } = await run(files, 'preview', 'a.v', '--format', 'html', '--out', 'some/where');
    const page = written['some/where/preview.html'];
    expect(page).toContain(`script-src 'sha256-${digest(script)}'`);
    expect(page).toContain(`style-src 'sha256-${digest(style)}'`);
    expect(page).toContain(`<script>${script}</script>`);
  });

  it('as SVG writes the picture and prints only its path', async () => {
    const { output, written } = await run(files, 'preview', 'a.v', '--format', 'svg');
    expect(output).toBe('foretick-preview/preview.svg\n');
    expect(written['foretick-preview/preview.svg']).toMatch(/^<svg [^>]*>\n<title>toggle<\/title>/);
  });

  it('as text or JSON writes nothing', async () => {
    for (const format of ['text', 'json']) {
      expect((await run(files, 'preview', 'a.v', '--format', format)).written).toEqual({});
    }
  });

  it('fails whole where the package is not built', async () => {
    const { complaint, exitCode, output, written } = await run({ 'a.v': toggle }, 'preview', 'a.v');
    expect([exitCode, output, written]).toEqual([2, '', {}]);
    expect(complaint).toContain('preview-page.js of the package is missing');
  });
});
