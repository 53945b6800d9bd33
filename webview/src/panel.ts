// The panel: joins the talk with the editor to what stands on the page. Each part draws itself from what it is handed;
// here is only who hears of what.

import type { DrawingForm } from '../../server/src/editor/panel-messages';
import type { Span } from '../../server/src/text/place';
import { silence, takeTurn, type TalkEvent } from './conversation';
import { makeDriveStrip } from './drive-strip';
import type { Host } from './host';
import { type NoticeAction, noticesOf } from './notices';
import { makeNoticesView } from './notices-view';
import { makeNotes } from './notes-view';
import { make } from './page-elements';
import { makeWhatIfStrip } from './what-if-strip';
import { makePicture } from './picture';
import { makeStates } from './states-view';

export function runPanel(host: Host, root: HTMLElement): void {
  let talk = silence;
  const reveal = revealingThrough(host);
  const strip = makeDriveStrip((choices) => take({ kind: 'chosen', choices }));
  const whatIf = makeWhatIfStrip((choices) => take({ kind: 'chosen', choices }));
  const notices = makeNoticesView(act);
  const states = makeStates(reveal);
  const notes = makeNotes(reveal);
  const said = make('p', { className: 'unseen', attributes: { role: 'status' } });
  const say = (words: string) => {
    said.textContent = words;
  };
  const newer = make('p', { className: 'newer', text: 'newer text or choices are being studied' });
  newer.hidden = true;
  // Most answers come at once: only a wait that is felt is told.
  const showNewer = soon(() => {
    newer.hidden = !talk.isStale || talk.failure !== null;
  }, 500);
  const picture = makePicture(host.kept(), { reveal, say, save: () => save('svg'), changed: soon(keep, 200) });
  root.replaceChildren(
    newer,
    strip.element,
    whatIf.element,
    notices.element,
    picture.element,
    states.element,
    notes.element,
    said,
  );
  host.listen((message) => {
    if (message.kind === 'export') save(message.form);
    else take({ kind: 'heard', message });
  });
  render();
  host.say({ kind: 'ready' });

  function take(event: TalkEvent): void {
    const turn = takeTurn(talk, event);
    talk = turn.talk;
    for (const message of turn.say) host.say(message);
    render();
    if (turn.wish !== null) picture.meet(turn.wish);
  }

  function render(): void {
    const { isStale, shown, subject } = talk;
    if (!isStale) newer.hidden = true;
    else if (shown !== null) showNewer();
    notices.show(noticesOf(talk));
    strip.element.hidden = shown === null;
    whatIf.element.hidden = shown === null;
    notes.element.hidden = shown === null;
    if (shown === null) states.element.hidden = true;
    if (shown === null || subject === null) return;
    strip.show(shown, subject.choices);
    whatIf.show(shown, subject.choices);
    states.show(shown.data);
    notes.show(shown.data);
    picture.show(shown);
  }

  function act(action: NoticeAction): void {
    if (action.kind === 'reveal') reveal(action.span);
    else take(action);
  }

  function save(form: DrawingForm): void {
    const handout = picture.handout(form);
    if (handout === null) say(`there is no picture yet, or it is too long for ${form.toUpperCase()}`);
    else host.say({ kind: 'export', ...handout });
  }

  function keep(): void {
    if (talk.subject !== null) host.keep({ subject: talk.subject, ...picture.kept() });
  }
}

/** However many steps are taken at once, the text follows the last. */
function revealingThrough(host: Host): (span: Span) => void {
  let wanted: Span | null = null;
  return (span) => {
    const isWaiting = wanted !== null;
    wanted = span;
    if (isWaiting) return;
    requestAnimationFrame(() => {
      if (wanted !== null) host.say({ kind: 'reveal', span: wanted });
      wanted = null;
    });
  };
}

/** Once nothing has asked for it again for some ms. */
function soon(action: () => void, quiet: number): () => void {
  let waiting: ReturnType<typeof setTimeout> | undefined;
  return () => {
    clearTimeout(waiting);
    waiting = setTimeout(action, quiet);
  };
}
