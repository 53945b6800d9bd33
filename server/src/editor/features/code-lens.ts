// A line above each module of a document: what it holds, and the command that opens its Timing preview. A module that others
// instantiate is previewed inside the whole design, where its clocks come from.

import type { CodeLens } from 'vscode-languageserver';
import { visibleText } from '../../drawing/visible-text';
import { describeModules, type ModuleLine } from '../../report/module-contents';
import { outlineOf } from '../../report/outline';
import type { Study } from '../../report/study';
import { noChoices } from '../no-choices';
import type { OpenPreviewCommand, PanelSubject } from '../panel-messages';
import { rangeOf } from './positions';

export function* codeLens(study: Study, path: string): Generator<void, CodeLens[]> {
  const modules = yield* describeModules(study);
  return modules
    .filter(({ span }) => span.file === path)
    .map((module) => ({
      range: rangeOf(module.span),
      command: { title: titleOf(module), command, arguments: [subjectOf(module, path)] },
    }));
}

/** Before it is known what the modules hold: what opens their preview. */
export function* plainLens(study: Study, path: string): Generator<void, CodeLens[]> {
  const entries = yield* outlineOf(yield* study.reading());
  return entries
    .filter(({ kind, span }) => kind === 'module' && span.file === path)
    .map(({ nameSpan }) => ({
      range: rangeOf(nameSpan),
      command: { title: 'Timing preview', command, arguments: [{ document: path, choices: noChoices }] },
    }));
}

function titleOf({ isTestBench, words }: ModuleLine): string {
  if (words !== '') return visibleText(words);
  return isTestBench ? 'test bench' : 'not in the design shown: open its Timing preview';
}

function subjectOf({ canBeTop, name }: ModuleLine, document: string): PanelSubject {
  return { document, choices: { ...noChoices, top: canBeTop ? name : null } };
}

const command: OpenPreviewCommand = 'foretick.openPreview';
