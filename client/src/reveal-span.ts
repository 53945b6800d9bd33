// Shows a stretch of text that the panel speaks of. The focus stays in the panel, so that its keys go on working.

import { Range, TextEditorRevealType, Uri, ViewColumn, window } from 'vscode';
import type { Span } from '../../server/src/text/place';

/** `span.file` is a URI. */
export async function revealSpan(span: Span): Promise<void> {
  const uri = Uri.parse(span.file);
  const editor = await window.showTextDocument(uri, {
    viewColumn: columnOf(uri),
    preserveFocus: true,
    selection: rangeOf(span),
  });
  editor.revealRange(rangeOf(span), TextEditorRevealType.InCenterIfOutsideViewport);
}

/** Where the text is in sight already; else the first column, which the panel leaves free. */
function columnOf(uri: Uri): ViewColumn {
  const shown = window.visibleTextEditors.find(({ document }) => document.uri.toString() === uri.toString());
  return shown?.viewColumn ?? ViewColumn.One;
}

function rangeOf({ column, endColumn, endLine, line }: Span): Range {
  return new Range(line - 1, column - 1, endLine - 1, endColumn - 1);
}
