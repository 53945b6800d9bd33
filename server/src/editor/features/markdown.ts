// Sections of a hover as Markdown or as plain text. Whatever a design says is text and nothing else: no name begins a
// heading, a link, a picture or markup (CommonMark 0.31, 2.4 Backslash escapes), and none hides or turns the words around it.

import { visibleText } from '../../drawing/visible-text';

export type Section =
  /** Verilog as it stands in the source. */
  | { readonly kind: 'code'; readonly lines: readonly string[] }
  /** Sentences, each on its own. */
  | { readonly kind: 'facts'; readonly lines: readonly string[] }
  /** `address`: a `data:` URI without blanks or parentheses. */
  | { readonly kind: 'picture'; readonly address: string; readonly what: string }
  /** Each line the cause of the one before. */
  | { readonly kind: 'account'; readonly lines: readonly string[] };

export function markdownOf(sections: readonly Section[]): string {
  return sections.map(markdownSection).join('\n\n');
}

function markdownSection(section: Section): string {
  switch (section.kind) {
    case 'code':
      return fenced(section.lines);
    case 'facts':
      return section.lines.map(escaped).join('\n\n');
    case 'picture':
      return `![${escaped(section.what)}](${section.address})`;
    case 'account':
      return section.lines.map((line, index) => `${index === 0 ? '' : '↳ '}${escaped(line)}`).join('  \n');
  }
}

/** A fence longer than any run of back ticks inside (CommonMark 0.31, 4.5). */
function fenced(lines: readonly string[]): string {
  const text = lines.map(visibleText).join('\n');
  const longest = Math.max(2, ...[...text.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = '`'.repeat(longest + 1);
  return `${fence}verilog\n${text}\n${fence}`;
}

/** Bare addresses are broken too, which some renderers make links of. */
export function escaped(text: string): string {
  return visibleText(text.trim())
    .replace(/[\\`*_[\]<>#!|~&$@]/g, '\\$&')
    .replace(/:(?=\/)/g, '\\:')
    .replace(/\b(www)\./gi, '$1\\.');
}

/** Pictures are left out. */
export function plainTextOf(sections: readonly Section[]): string {
  return sections.flatMap(plainSection).join('\n\n');
}

function plainSection(section: Section): readonly string[] {
  switch (section.kind) {
    case 'code':
    case 'facts':
      return [section.lines.map(visibleText).join('\n')];
    case 'picture':
      return [];
    case 'account':
      return [section.lines.map((line, index) => `${index === 0 ? '' : '  '}${visibleText(line)}`).join('\n')];
  }
}
