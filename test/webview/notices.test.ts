// What stands above the picture while it is not whole: each notice says what to do.
import { describe, expect, it } from 'vitest';
import type { PanelSubject } from '../../server/src/editor/panel-messages';
import type { PreviewData } from '../../server/src/report/preview-data';
import { silence, type Talk } from '../../webview/src/conversation';
import { actionWords, noticesOf } from '../../webview/src/notices';
import { previewOf, rippleOfTwo, span } from '../drawing/previews';

const none = { top: null, delays: null, start: null, clocks: {}, resets: {}, inputs: {}, whatIf: [] };
const subject: PanelSubject = { document: 'file:///project/a.v', choices: none };

function showing(data: PreviewData, more: Partial<Talk> = {}): Talk {
  const shown = { subject, mark: 'm', data, offers: { tops: ['a', 'b'], delaySets: [] } };
  return { ...silence, subject, shown, isStale: false, ...more };
}

const syntax = {
  id: 'syntax',
  certainty: null,
  severity: 'error',
  message: 'endmodule is missing',
  signals: [],
  instances: [],
  span,
  related: [],
  facts: {},
  accepted: null,
} as const;

const said = (talk: Talk) => noticesOf(talk).map(({ words }) => words);
const offered = (talk: Talk) => noticesOf(talk).map(({ action }) => (action === null ? null : actionWords(action)));

describe('notices', () => {
  it('are none where all is drawn', () => expect(said(showing(rippleOfTwo()))).toEqual([]));

  it('ask for patience at first', () => expect(said(silence)[0]).toMatch(/being read/));

  it('tell what cannot be read, where, and that the rest is drawn', () => {
    const talk = showing({ ...rippleOfTwo(), findings: [syntax, syntax] });
    expect(said(talk)).toEqual([
      'endmodule is missing (and 1 more). What cannot be read is left out of the picture; the rest is drawn.',
    ]);
    expect(offered(talk)).toEqual(['Show line 3']);
  });

  it('do not claim a picture where there is none', () => {
    const talk = showing(previewOf({ top: null, findings: [syntax] }));
    expect(said(talk)).toEqual([expect.stringMatching(/no module here/), 'endmodule is missing.']);
  });

  it('tell of a module that does nothing, and that another can be chosen', () => {
    expect(said(showing(previewOf({ top: 'a' })))[0]).toMatch(/^a has nothing that could move.*another module/);
  });

  it('tell of limits', () => {
    expect(said(showing({ ...rippleOfTwo(), cut: 'the run ends at 5 ns' }))[0]).toMatch(
      /^the run ends at 5 ns\. .*not drawn/,
    );
    const finding = { ...syntax, id: 'limit-reached', message: 'nested too deep' } as const;
    expect(said(showing({ ...rippleOfTwo(), findings: [finding] }))[0]).toMatch(/^nested too deep\./);
  });

  it('offer to drop choices that cannot be followed, where there are any', () => {
    const failure = { reason: 'refused', words: 'no delay set is called fast' } as const;
    const chosen = { ...subject, choices: { ...none, delays: 'fast' } };
    expect(offered(showing(rippleOfTwo(), { failure, subject: chosen }))).toEqual(['Drop what was chosen here', null]);
    expect(offered(showing(rippleOfTwo(), { failure }))).toEqual([null, null]);
    expect(said(showing(rippleOfTwo(), { failure }))[0]).toContain('no delay set is called fast');
  });

  it('offer to try again, with a picture or without', () => {
    const failure = { reason: 'unavailable', words: '' } as const;
    expect(offered({ ...silence, failure })).toEqual(['Try again']);
    expect(said({ ...silence, failure })).toEqual(['There is no answer at the moment.']);
    expect(said(showing(rippleOfTwo(), { failure }))[1]).toMatch(/earlier text or choice/);
  });
});
