// Everything that is said between page, client and server about the Timing preview: types only, so that each of the three
// compiles against the same words. A failure is a reply, every request ends, and no answer rests on an earlier request:
// whatever a question is about travels with it. Positions and lines in a `Span` count from one; in a `Caret` from zero.

import type { WrittenInput } from '../report/project-inputs';
import type { WhatIf } from '../report/asked';
import type { PreviewData } from '../report/preview-data';
import type { Span } from '../text/place';

// ---------------------------------------------------------------- client ↔ server, as custom messages of the protocol

/** A request of the client with a `PanelRequest` as parameter; its result is a `PanelReply`, never an error. */
export type PanelMethod = 'foretick/panel';
/** A notification of the server with a `StudyChanged`. */
export type StudyChangedMethod = 'foretick/studyChanged';
/**
 * A request of the server with a `FileRequest`, answered by a `FileReply`: reads a file through the client, where the
 * workspace is not on this machine's disk. Sent only if the client said `readsFiles` when it started the server.
 */
export type ReadFileMethod = 'foretick/readFile';

/** `initializationOptions`; each may be absent. */
export interface ServerOptions {
  readonly readsFiles?: boolean;
  /** The client answers `foretick/findFiles` (`file-messages.ts`). */
  readonly findsFiles?: boolean;
  /** The client shows pictures that stand in Markdown as data. */
  readonly showsPictures?: boolean;
  /** Settings below `foretick`, for clients that cannot be asked for them by `workspace/configuration`. */
  readonly settings?: unknown;
}

export interface FileRequest {
  readonly uri: string;
}

/** `text` null: there is no such file, or it cannot be read. */
export interface FileReply {
  readonly text: string | null;
}

/** Text, project file or settings behind a document changed: a panel that shows it asks again. */
export interface StudyChanged {
  /** URIs of open documents. */
  readonly documents: readonly string[];
}

/** The command behind a code lens, run by the client with one `PanelSubject` as its argument. */
export type OpenPreviewCommand = 'foretick.openPreview';

// ---------------------------------------------------------------- what a panel shows

/** What a panel is about. Restoring a panel after a reload needs nothing more. */
export interface PanelSubject {
  /** URI of a document, as the client writes it. */
  readonly document: string;
  /** What the person chose in the panel; nothing of it is in the text or in `foretick.json`. */
  readonly choices: StudyChoices;
}

/** Settings of one study. They win over the project file, name by name; null and empty say nothing. */
export interface StudyChoices {
  /** The module that is the whole design. */
  readonly top: string | null;
  /** Name of the delay set. */
  readonly delays: string | null;
  /** What registers hold at first where the text does not say. */
  readonly start: '0' | '1' | 'x' | null;
  /** By full name of the signal; ps. */
  readonly clocks: Readonly<Record<string, ClockChoice>>;
  readonly resets: Readonly<Record<string, ResetChoice>>;
  /** As in `foretick.json`: a level that is held, or how the input moves. */
  readonly inputs: Readonly<Record<string, WrittenInput>>;
  /** Asked besides: how it would be otherwise. What is shown stays what is. */
  readonly whatIf: readonly WhatIf[];
}

export interface ClockChoice {
  readonly periodPs: number | null;
  readonly highPs: number | null;
  readonly phasePs: number | null;
}

export interface ResetChoice {
  readonly active: 'high' | 'low' | null;
  /** How long it is active from the start, in periods of the slowest clock that samples it. */
  readonly periods: number | null;
}

/** Two answers with the same mark about the same subject are the same answer. Otherwise without meaning. */
export type StudyMark = string;

/** Where the caret stands: zero-based line and UTF-16 character, as the protocol counts. */
export interface Caret {
  readonly line: number;
  readonly character: number;
}

// ---------------------------------------------------------------- questions and answers

export type PanelRequest =
  /** The whole preview. `known`: the mark of what the asker already has, if it has any. */
  | { readonly kind: 'preview'; readonly subject: PanelSubject; readonly known: StudyMark | null }
  /** Which signal stands at the caret, and the account of its last change in the preview. */
  | { readonly kind: 'account-at-caret'; readonly subject: PanelSubject; readonly caret: Caret }
  /** Why a signal (full name) changed at an instant, ps, or did not. */
  | {
      readonly kind: 'account-of-signal';
      readonly subject: PanelSubject;
      readonly signal: string;
      readonly at: number;
    }
  /** What is saved of the study but its picture. */
  | { readonly kind: 'file'; readonly subject: PanelSubject; readonly form: FileForm };

/** By the ending of the file: a value change dump (IEEE 1364 clause 18); the report as JSON, as Markdown, as SARIF. */
export type FileForm = 'vcd' | 'json' | 'md' | 'sarif';

export type DrawingForm = 'svg' | 'png';

export type PanelReply =
  | {
      readonly kind: 'preview';
      readonly mark: StudyMark;
      readonly data: PreviewData;
      /** What may be chosen instead of what is shown. */
      readonly offers: Offers;
    }
  /** The asker has it already. */
  | { readonly kind: 'unchanged'; readonly mark: StudyMark }
  | {
      readonly kind: 'account';
      readonly mark: StudyMark;
      /** Full name, as traces are named; null where no signal of the design stands there. */
      readonly signal: string | null;
      readonly accounts: readonly PanelAccount[];
    }
  | { readonly kind: 'file'; readonly mark: StudyMark; readonly suggestedName: string; readonly text: string }
  | { readonly kind: 'failed'; readonly reason: FailureReason; readonly words: string };

export interface Offers {
  /** Modules of the study, in source order. */
  readonly tops: readonly string[];
  /** Names of delay sets: those that come with the tool, then the project's own. */
  readonly delaySets: readonly string[];
}

/** Of one bit: an answer and its causes, each line the cause of the one before. */
export interface PanelAccount {
  /** Full name of the bit. */
  readonly signal: string;
  /** ps */
  readonly at: number;
  readonly lines: readonly string[];
  /** For each change told of, itself first: when it happened and the line of the text that makes it so. */
  readonly steps: readonly { readonly signal: string; readonly at: number; readonly span: Span }[];
}

/**
 * superseded: newer text came in between; ask again after the next `StudyChanged`.
 * refused: a choice or the project file cannot be followed; the words say which.
 * unavailable: no such document, or the server's worker came to an end; asking again may help.
 * broken: a mistake of this program.
 */
export type FailureReason = 'superseded' | 'refused' | 'unavailable' | 'broken';

// ---------------------------------------------------------------- page ↔ client, by `postMessage`

export type PageMessage =
  /** The page listens; the client answers with `show`. */
  | { readonly kind: 'ready' }
  /** The client answers with an `answer` of the same number, whatever happens. */
  | { readonly kind: 'ask'; readonly number: number; readonly request: PanelRequest }
  /** Show and select this stretch of text beside the panel. `span.file` is a URI. */
  | { readonly kind: 'reveal'; readonly span: Span }
  /** The subject that the panel now shows, to be restored after a reload. */
  | { readonly kind: 'chose'; readonly subject: PanelSubject }
  /** Write this picture into a file that the person names. */
  | { readonly kind: 'export'; readonly suggestedName: string; readonly drawing: Drawing };

/** SVG as text, PNG in base 64. */
export interface Drawing {
  readonly form: DrawingForm;
  readonly content: string;
}

export type ClientMessage =
  | { readonly kind: 'show'; readonly subject: PanelSubject }
  | { readonly kind: 'answer'; readonly number: number; readonly reply: PanelReply }
  /** What the page shows may have changed: it asks again with the mark it has. */
  | { readonly kind: 'changed' }
  /** The caret of the editor stands in the document shown: the page asks for what is there. */
  | { readonly kind: 'caret'; readonly caret: Caret }
  /** Send an `export` of what is shown. */
  | { readonly kind: 'export'; readonly form: DrawingForm };
