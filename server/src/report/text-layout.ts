// Plain text in sections and columns, for a terminal. Knows nothing of reports.

export interface Section {
  readonly title: string;
  readonly lines: readonly string[];
}

/** Sections with something in them, a blank line between two. */
export function layOut(sections: readonly Section[]): string {
  const filled = sections.filter(({ lines }) => lines.length > 0);
  return `${filled.map(({ title, lines }) => [title, ...lines.map((line) => `  ${line}`)].join('\n')).join('\n\n')}\n`;
}

/** Rows as lines, every column as wide as its widest cell; nothing trails. */
export function columns(rows: readonly (readonly string[])[]): readonly string[] {
  const widths: number[] = [];
  for (const row of rows) {
    for (const [column, cell] of row.entries()) widths[column] = Math.max(widths[column] ?? 0, [...cell].length);
  }
  return rows.map((row) =>
    row
      .map((cell, column) => padded(cell, widths[column]))
      .join('  ')
      .trimEnd(),
  );
}

function padded(cell: string, width: number): string {
  return cell + ' '.repeat(width - [...cell].length);
}

/** Words in lines of at most `width` characters; a longer word has a line of its own. */
export function wrapped(words: readonly string[], width: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of words) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = '';
    }
    line = line === '' ? word : `${line} ${word}`;
  }
  return line === '' ? lines : [...lines, line];
}
