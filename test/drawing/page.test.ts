// The page as text: self-contained, under a policy that allows its own script and style and nothing else, and not to be
// broken out of by what a design or a file is called.
import { describe, expect, it } from 'vitest';
import { previewPage } from '../../server/src/drawing/page';
import { previewOf, rippleOfTwo, span, traceOf } from './previews';

const assets = { script: 'run()', style: 'p{}', scriptDigest: 'SCRIPT', styleDigest: 'STYLE' };

describe('the page', () => {
  const page = previewPage(rippleOfTwo(), assets);

  it('allows its own script and style by their digests, and nothing else', () => {
    const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(page)?.[1] ?? '';
    expect(policy.split('; ')).toEqual([
      "default-src 'none'",
      "script-src 'sha256-SCRIPT'",
      "style-src 'sha256-STYLE'",
      "base-uri 'none'",
      "form-action 'none'",
    ]);
    expect(page).toContain('<script>run()</script>');
    expect(page).toContain('<style>p{}</style>');
  });

  it('refers to nothing outside of itself, and has no inline handler or style that the policy would refuse', () => {
    expect(page).not.toMatch(/\b(src|href|style|on[a-z]+)=/);
    expect(page).not.toMatch(/https?:/);
  });

  it('says the picture in a table too', () => {
    expect(page).toContain('<td>q[0]</td>');
    expect(page).toContain('1 at 110 ps, 0 at 210 ps');
    expect(page).toContain('<td>q[1] q[0]</td>');
  });

  it('lists the pulses in words', () => {
    const pulse = { min: 5, typ: 5, max: 5 };
    const glitch = {
      trace: 3,
      at: 110,
      until: 115,
      certainty: 'certain',
      harmless: false,
      from: '1',
      to: '2',
    } as const;
    const marked = { ...rippleOfTwo(), glitches: [{ ...glitch, pulse, words: 'pulse of 5 ps on 1→2' }] };
    expect(previewPage(marked, assets)).toContain('<td>q[0]</td><td>110 ps</td><td>pulse of 5 ps on 1→2</td>');
  });

  it('without a top shows the findings and no picture', () => {
    const empty = previewPage(previewOf({ top: null, groups: [] }), assets);
    expect(empty).not.toContain('<canvas');
    expect(empty).not.toContain('run()');
    expect(empty).toContain('Findings');
  });
});

describe('hostile names', () => {
  const names = ['</script><script>alert(1)</script>', '<!--<script>', '"onload="x', "'", '\u202Eevil', '\u2028'];
  const finding = {
    id: 'syntax' as const,
    certainty: null,
    severity: 'error' as const,
    message: names[0],
    signals: [],
    instances: [],
    span: { ...span, file: names[0] },
    related: [],
    facts: {},
    accepted: null,
  };
  const data = previewOf({
    top: names[0],
    headline: names,
    traces: names.map((name) => traceOf(name, { note: name })),
    findings: [finding],
    cautions: names,
    cut: names[0],
  });
  const page = previewPage(data, assets);

  it('stay text: no element more than a tame design has', () => {
    const tame = previewPage(JSON.parse(JSON.stringify(data).replaceAll(/[<>]/g, '.')), assets);
    const tags = (text: string) => [...text.matchAll(/<[!/a-z][^\s>]*/gi)].map(([tag]) => tag);
    expect(tags(page)).toEqual(tags(tame));
  });

  it('show what hides, and turn nothing around', () => {
    const withoutData = page.replace(/<script type="application\/json"[^<]*<\/script>/, '');
    expect(withoutData).toContain('<td>\\u202Eevil</td>');
    expect(withoutData).not.toMatch(/[\u202E\u2028]/);
  });

  it('arrive at the script as they were', () => {
    const embedded = /<script type="application\/json" id="data">([^<]*)<\/script>/.exec(page)?.[1] ?? '';
    expect(JSON.parse(embedded)).toEqual(data);
    expect(embedded).not.toMatch(/[<\u2028\u2029]/);
  });
});
