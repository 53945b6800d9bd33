// The talk with the editor: what is asked when, which answers count, and what stays on the screen in between.
import { describe, expect, it } from 'vitest';
import type { ClientMessage, PanelReply, PanelSubject } from '../../server/src/editor/panel-messages';
import { silence, takeTurn, type Talk, type TalkEvent, type Turn } from '../../webview/src/conversation';
import { previewOf } from '../drawing/previews';

const none = { top: null, delays: null, start: null, clocks: {}, resets: {}, inputs: {}, whatIf: [] };
const subject: PanelSubject = { document: 'file:///project/a.v', choices: none };
const other: PanelSubject = { ...subject, choices: { ...none, top: 'b' } };
const offers = { tops: ['a', 'b'], delaySets: ['unit'] };
const preview = (mark: string): PanelReply => ({ kind: 'preview', mark, data: previewOf({ top: mark }), offers });
const heard = (message: ClientMessage): TalkEvent => ({ kind: 'heard', message });
const show = heard({ kind: 'show', subject });
const changed = heard({ kind: 'changed' });
const answer = (number: number, reply: PanelReply) => heard({ kind: 'answer', number, reply });

function talkThrough(...events: readonly TalkEvent[]): Turn & { readonly said: Turn['say'] } {
  let turn: Turn = { talk: silence, say: [], wish: null };
  const said = events.flatMap((event) => {
    turn = takeTurn(turn.talk, event);
    return turn.say;
  });
  return { ...turn, said };
}

const markOf = ({ shown }: Talk) => shown?.mark ?? null;

describe('a preview', () => {
  it('is asked for when the client says what to show, and shown when it comes', () => {
    const { said, talk } = talkThrough(show, answer(1, preview('m1')));
    expect(said).toEqual([{ kind: 'ask', number: 1, request: { kind: 'preview', subject, known: null } }]);
    expect(talk).toMatchObject({ shown: { mark: 'm1', subject, offers }, isStale: false, failure: null });
  });

  it('is asked for with the mark of what is shown', () => {
    const { say, talk } = talkThrough(show, answer(1, preview('m1')), changed);
    expect(say).toEqual([{ kind: 'ask', number: 2, request: { kind: 'preview', subject, known: 'm1' } }]);
    expect([markOf(talk), talk.isStale]).toEqual(['m1', true]);
  });

  it('counts only as the answer to the newest question, in whatever order answers come', () => {
    const both = talkThrough(show, changed, answer(1, preview('old')), answer(2, preview('new')));
    expect(markOf(both.talk)).toBe('new');
    const late = talkThrough(show, changed, answer(2, preview('new')), answer(1, preview('old')));
    expect(markOf(late.talk)).toBe('new');
    expect(markOf(talkThrough(show, changed, answer(1, preview('old'))).talk)).toBeNull();
  });

  it('counts once', () => {
    const twice = talkThrough(show, answer(1, preview('m1')), answer(1, preview('echo')));
    expect(markOf(twice.talk)).toBe('m1');
  });

  it('that is the same keeps the data, with the newest mark', () => {
    const before = talkThrough(show, answer(1, preview('m1')));
    const { talk } = takeTurn(takeTurn(before.talk, changed).talk, answer(2, { kind: 'unchanged', mark: 'm2' }));
    expect(markOf(talk)).toBe('m2');
    expect(talk.shown?.data).toBe(before.talk.shown?.data);
    expect(talk.isStale).toBe(false);
  });

  it('of another subject is asked for without a mark; what is shown stays until it comes', () => {
    const { say, talk } = talkThrough(show, answer(1, preview('m1')), heard({ kind: 'show', subject: other }));
    expect(say).toEqual([{ kind: 'ask', number: 2, request: { kind: 'preview', subject: other, known: null } }]);
    expect(talk.shown?.subject).toEqual(subject);
  });
});

describe('a choice', () => {
  it('is told to the client, and asked for', () => {
    const { say } = talkThrough(show, answer(1, preview('m1')), { kind: 'chosen', choices: other.choices });
    expect(say).toEqual([
      { kind: 'chose', subject: other },
      { kind: 'ask', number: 2, request: { kind: 'preview', subject: other, known: null } },
    ]);
  });

  it('can be dropped with all others', () => {
    const { say } = talkThrough(heard({ kind: 'show', subject: other }), { kind: 'drop-choices' });
    expect(say[0]).toEqual({ kind: 'chose', subject });
  });

  it('before there is a subject says nothing', () => {
    expect(talkThrough({ kind: 'chosen', choices: none }).said).toEqual([]);
    expect(talkThrough({ kind: 'ask-again' }, changed).said).toEqual([]);
  });
});

describe('a failure', () => {
  const failed = (reason: 'superseded' | 'refused' | 'unavailable') =>
    ({ kind: 'failed', reason, words: 'why' }) as const;

  it('is kept with its words beside what is shown, until an answer comes', () => {
    const { talk } = talkThrough(show, answer(1, preview('m1')), changed, answer(2, failed('refused')));
    expect(talk.failure).toEqual({ reason: 'refused', words: 'why' });
    expect([markOf(talk), talk.isStale]).toEqual(['m1', true]);
    const again = takeTurn(talk, { kind: 'ask-again' });
    expect(again.say).toHaveLength(1);
    expect(takeTurn(again.talk, answer(3, preview('m3'))).talk.failure).toBeNull();
  });

  it('by newer text is none: the next change asks again', () => {
    const { said, talk } = talkThrough(show, answer(1, failed('superseded')), changed);
    expect(talk.failure).toBeNull();
    expect(said).toHaveLength(2);
  });
});

describe('the caret', () => {
  const caret = heard({ kind: 'caret', caret: { line: 3, character: 4 } });
  const account = (signal: string | null): PanelReply => ({ kind: 'account', mark: 'm1', signal, accounts: [] });

  it('asks what stands there, and wishes to see it', () => {
    const asked = talkThrough(show, answer(1, preview('m1')), caret);
    expect(asked.say).toEqual([
      { kind: 'ask', number: 2, request: { kind: 'account-at-caret', subject, caret: { line: 3, character: 4 } } },
    ]);
    expect(takeTurn(asked.talk, answer(2, account('q'))).wish).toEqual({ signal: 'q', accounts: [] });
  });

  it('that went on is not answered any more', () => {
    const { talk } = talkThrough(show, answer(1, preview('m1')), caret, caret);
    expect(takeTurn(talk, answer(2, account('old'))).wish).toBeNull();
    expect(takeTurn(talk, answer(3, account('new'))).wish?.signal).toBe('new');
  });

  it('wishes nothing where no signal stands, and disturbs no preview that is on its way', () => {
    const { talk } = talkThrough(show, caret);
    const nothing = takeTurn(talk, answer(2, account(null)));
    expect(nothing.wish).toBeNull();
    expect(markOf(takeTurn(nothing.talk, answer(1, preview('m1'))).talk)).toBe('m1');
    expect(takeTurn(talk, answer(2, { kind: 'failed', reason: 'broken', words: '' })).talk.failure).toBeNull();
  });
});
