// Everything that is said between the two halves of the server: the front, which speaks the protocol and holds the texts,
// and the back, which studies them in a worker. Plain data, heard in the order in which it was sent. Every question is
// answered, by the front itself where the worker comes to an end.

import type { Diagnostic } from 'vscode-languageserver';
import type { HoverOptions } from './features/hover';
import type { FindFilesReply, FindFilesRequest } from './file-messages';
import type { PanelRequest } from './panel-messages';
import type { EditorSettings } from './settings';

export type FrontMessage =
  /** A document was opened or changed; documents and files are named by URI. */
  | { readonly kind: 'text'; readonly document: string; readonly text: string }
  /** Studies of a document wait until its settings are known. */
  | { readonly kind: 'settings'; readonly document: string; readonly settings: EditorSettings }
  | { readonly kind: 'closed'; readonly document: string }
  /** Files that are not open came, went or changed; null: perhaps any. */
  | { readonly kind: 'files-changed'; readonly files: readonly string[] | null }
  | { readonly kind: 'ask'; readonly id: number; readonly question: Question }
  /** Nobody waits for the answer any more; it may still come. */
  | { readonly kind: 'cancel'; readonly id: number }
  /** Answers a `read` of the same number; null: there is no such file. */
  | { readonly kind: 'file'; readonly number: number; readonly text: string | null }
  /** The folders of the workspace, all of them, by URI. */
  | { readonly kind: 'folders'; readonly folders: readonly string[] }
  /** Answers a `list` of the same number. */
  | { readonly kind: 'listed'; readonly number: number; readonly reply: FindFilesReply };

export type BackMessage =
  | { readonly kind: 'answer'; readonly id: number; readonly answer: Answer }
  /**
   * Answers about these documents may differ from now on; questions under way about them were answered before this.
   * `edited`: the one whose own text came in, if that is why.
   */
  | { readonly kind: 'changed'; readonly documents: readonly string[]; readonly edited: string | null }
  | { readonly kind: 'read'; readonly number: number; readonly uri: string }
  | { readonly kind: 'list'; readonly number: number; readonly request: FindFilesRequest }
  /** Something that a person should know once. */
  | { readonly kind: 'notice'; readonly words: string };

export type Question =
  /** A request of the protocol as it stands; the result is the protocol's. */
  | {
      readonly kind: 'feature';
      readonly method: string;
      readonly document: string;
      readonly params: object;
      readonly hover: HoverOptions;
      /** Whether completions may have places to fill in. */
      readonly fillsIn: boolean;
      /** The document is as it was opened: what takes long may be answered from its text first. */
      readonly isUntouched: boolean;
    }
  /** Units and macros of the workspace whose names hold the letters of the query in their order. */
  | { readonly kind: 'symbols'; readonly query: string }
  /** The result is `Findings`. */
  | { readonly kind: 'findings'; readonly document: string; readonly depth: FindingsDepth }
  /** The result is a `PanelReply`. */
  | { readonly kind: 'panel'; readonly request: PanelRequest };

/** early: all but what a search for glitches finds. Where that is soon at its end, an early answer is whole. */
export type FindingsDepth = 'reading' | 'early' | 'whole';

export interface Findings {
  readonly depth: FindingsDepth;
  /** Two findings with one mark are the same. */
  readonly mark: string;
  readonly diagnostics: readonly Diagnostic[];
}

export type Answer =
  | { readonly kind: 'result'; readonly result: unknown }
  /**
   * superseded: newer text came in between. unknown: no such document is open. refused: what is asked for is not safe or
   * not possible, and the words say why. broken: a mistake of this program.
   */
  | {
      readonly kind: 'failed';
      readonly reason: 'superseded' | 'unknown' | 'refused' | 'broken';
      readonly words: string;
    };
