// Which feature answers which request of the protocol, and how much of a study it needs. The front promises the client
// these methods and relays them; a test holds the two together.

import type { Position, Range } from 'vscode-languageserver';
import type { Study } from '../../report/study';
import type { SliceParser } from '../../syntax/slice-parser';
import { codeLens, plainLens } from '../features/code-lens';
import { completion, filesForCompletion } from '../features/completion';
import { type ActionContext, codeActions } from '../features/cures';
import { definition, filesWithDefinition } from '../features/definition';
import { documentLinks } from '../features/document-links';
import { documentSymbols } from '../features/document-symbols';
import { folding } from '../features/folding';
import { highlight } from '../features/highlight';
import { type HoverOptions, hover } from '../features/hover';
import { inlayHints } from '../features/inlay-hints';
import { filesWithUses, references } from '../features/references';
import { prepareRename, rename } from '../features/rename';
import { selectionRanges } from '../features/selection-ranges';
import { semanticTokens } from '../features/semantic-tokens';
import { filesForSignature, signatureHelp } from '../features/signature-help';
import type { Further, WorkspaceView } from '../features/workspace-view';
import type { EditorSettings } from '../settings';
import { urgencies } from './scheduler';

export interface Feature {
  /** text: the document with its includes. files: also the modules it instantiates. design: and all that is predicted. */
  readonly needs: 'text' | 'files' | 'design';
  readonly urgency: number;
  /** What it needs of other files; absent or null: nothing. */
  further?(study: Study, document: string, asked: AskedOf): Generator<void, Further | null>;
  run(study: Study, document: string, asked: AskedOf): Generator<void, unknown>;
  /** From the text alone, for a document just opened: an editor puts a question aside that is not answered soon. */
  atFirst?(study: Study, document: string): Generator<void, unknown>;
}

/** Parameters of a request, as far as it has them, and what a person has set. */
export interface AskedOf {
  readonly position: Position;
  readonly range: Range;
  readonly context: { readonly includeDeclaration: boolean; readonly triggerCharacter?: string } & ActionContext;
  readonly newName: string;
  readonly positions: readonly Position[];
  readonly workspace: WorkspaceView;
  readonly parser: SliceParser;
  readonly settings: EditorSettings;
  readonly hover: HoverOptions;
  /** Whether completions may have places to fill in. */
  readonly fillsIn: boolean;
}

const { asked, background, reading } = urgencies;

export const features: Readonly<Record<string, Feature>> = {
  'textDocument/hover': {
    needs: 'design',
    urgency: asked,
    run: (study, document, { hover: options, position }) => hover(study, document, position, options),
  },
  'textDocument/documentSymbol': { needs: 'text', urgency: reading, run: documentSymbols },
  'textDocument/foldingRange': { needs: 'text', urgency: reading, run: folding },
  'textDocument/documentHighlight': {
    needs: 'text',
    urgency: reading,
    run: (study, document, { position }) => highlight(study, document, position),
  },
  'textDocument/definition': {
    needs: 'files',
    urgency: asked,
    further: (study, document, { position }) => filesWithDefinition(study, document, position),
    run: (study, document, { position, workspace }) => definition(study, document, position, workspace),
  },
  'textDocument/references': {
    needs: 'files',
    urgency: asked,
    further: (study, document, { position }) => filesWithUses(study, document, position),
    run: (study, document, { context, position, workspace }) =>
      references(study, document, position, context, workspace),
  },
  'textDocument/selectionRange': {
    needs: 'text',
    urgency: reading,
    run: (study, document, { positions }) => selectionRanges(study, document, positions),
  },
  'textDocument/documentLink': { needs: 'files', urgency: background, run: documentLinks },
  'textDocument/semanticTokens/full': {
    needs: 'files',
    urgency: background,
    run: (study, document) => semanticTokens(study, document, null),
  },
  'textDocument/semanticTokens/range': {
    needs: 'files',
    urgency: background,
    run: (study, document, { range }) => semanticTokens(study, document, range),
  },
  'textDocument/completion': {
    needs: 'text',
    urgency: reading,
    further: (study, document, { position }) => filesForCompletion(study, document, position),
    run: (study, document, { context, fillsIn, position, workspace }) =>
      completion(study, document, position, workspace, { fillsIn, trigger: context?.triggerCharacter ?? null }),
  },
  'textDocument/signatureHelp': {
    needs: 'text',
    urgency: reading,
    further: (study, document, { position }) => filesForSignature(study, document, position),
    run: (study, document, { position, workspace }) => signatureHelp(study, document, position, workspace),
  },
  'textDocument/prepareRename': {
    needs: 'files',
    urgency: asked,
    run: (study, document, { position }) => prepareRename(study, document, position),
  },
  'textDocument/rename': {
    needs: 'files',
    urgency: asked,
    further: (study, document, { position }) => filesWithUses(study, document, position),
    run: (study, document, { newName, position, workspace }) => rename(study, document, position, newName, workspace),
  },
  'textDocument/codeAction': {
    needs: 'design',
    urgency: asked,
    run: (study, document, { context, parser, range }) => codeActions(study, document, range, context, parser),
  },
  'textDocument/codeLens': { needs: 'design', urgency: background, run: codeLens, atFirst: plainLens },
  'textDocument/inlayHint': {
    needs: 'design',
    urgency: background,
    run: (study, document, { range, settings }) => inlayHints(study, document, range, settings.hints),
  },
};
