// Markdown that says what it is given and nothing else: names and sentences of a design stay text, whatever they hold.

/** As code: fenced by more back quotes than stand in it side by side. */
export function code(text: string): string {
  const longest = Math.max(0, ...[...text.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = '`'.repeat(longest + 1);
  const padding = longest > 0 ? ' ' : '';
  return `${fence}${padding}${oneLine(text)}${padding}${fence}`;
}

/** As words. */
export function plain(text: string): string {
  return oneLine(text).replace(/[\\`*_{}[\]<>#|~!]/g, (mark) => `\\${mark}`);
}

/** Cells are Markdown already; none without rows. */
export function table(header: readonly string[], rows: readonly (readonly string[])[]): readonly string[] {
  if (rows.length === 0) return [];
  // A bar ends a cell even inside code.
  const line = (cells: readonly string[]) =>
    `| ${cells.map((cell) => cell.replaceAll(/(?<!\\)\|/g, '\\|')).join(' | ')} |`;
  return [line(header), line(header.map(() => '---')), ...rows.map(line)];
}

function oneLine(text: string): string {
  return text.replaceAll(/[\r\n\t]+/g, ' ');
}
