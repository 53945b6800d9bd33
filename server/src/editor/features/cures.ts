// Cures as quick fixes: for each finding that the range touches, those rewrites that were tried and hold. What is different
// afterwards stands in the title, so that nobody takes a change of behavior for a change of style.

import { type CodeAction, CodeActionKind, type Diagnostic, type Range, type TextEdit } from 'vscode-languageserver';
import type { Cure } from '../../cures/cure';
import { curesAt, curedKinds } from '../../cures/cures-at';
import type { Study } from '../../report/study';
import type { SliceParser } from '../../syntax/slice-parser';
import { rangeOf } from './positions';

export interface ActionContext {
  /** Those that the client shows in the range. */
  readonly diagnostics: readonly Diagnostic[];
  readonly only?: readonly string[];
}

export function* codeActions(
  study: Study,
  path: string,
  range: Range,
  { diagnostics, only }: ActionContext,
  parser: SliceParser,
): Generator<void, CodeAction[]> {
  if (only !== undefined && !only.some((kind) => CodeActionKind.QuickFix.startsWith(kind))) return [];
  const { findings } = yield* study.report();
  const touched = findings.filter(
    ({ accepted, id, span }) =>
      accepted === null && curedKinds.has(id) && span.file === path && touches(range, rangeOf(span)),
  );
  const actions: CodeAction[] = [];
  for (const finding of touched) {
    const cures = yield* curesAt(study, parser, { id: finding.id, file: path, line: finding.span.line });
    const shown = diagnostics.filter(
      ({ code, range: place }) => code === finding.id && touches(place, rangeOf(finding.span)),
    );
    for (const cure of cures ?? []) if (cure.proof.holds) actions.push(actionOf(cure, shown));
  }
  return actions;
}

function touches(left: Range, right: Range): boolean {
  return !isBefore(left.end, right.start) && !isBefore(right.end, left.start);
}

function isBefore(left: Range['start'], right: Range['start']): boolean {
  return left.line < right.line || (left.line === right.line && left.character < right.character);
}

function actionOf({ asks, differs, edits, title }: Cure, shown: readonly Diagnostic[]): CodeAction {
  const changes: Record<string, TextEdit[]> = {};
  for (const { file, span, text } of edits) {
    changes[file] ??= [];
    changes[file].push({ range: rangeOf(span), newText: text });
  }
  const words = `${title.charAt(0).toUpperCase()}${title.slice(1)}`;
  const told = [...differs, ...asks.map((asked) => `is it wanted that ${asked}?`)];
  return {
    title: told.length === 0 ? words : `${words} (${told.join('; ')})`,
    kind: CodeActionKind.QuickFix,
    diagnostics: [...shown],
    edit: { changes },
  };
}
