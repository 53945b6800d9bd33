// The CSS server that editors ship (package vscode-langservers-extracted), as a measure for ours, and style sheets for it.

import path from 'node:path';

/** `root`: the repository's folder. */
export function cssServerCommand(root: string): readonly string[] {
  return [path.join(root, 'node_modules/vscode-langservers-extracted/bin/vscode-css-language-server'), '--stdio'];
}

/** Ordinary rules, the last of them without its closing brace; so many characters. */
export function stylesOfLength(length: number): string {
  const rules: string[] = [];
  for (let size = 0; size < length; size += rules[rules.length - 1].length) rules.push(rule(rules.length));
  const text = rules.join('').slice(0, length);
  return `${text.slice(0, text.lastIndexOf('}'))}${' '.repeat(length)}`.slice(0, length);
}

/** Ordinary rules, the last of them without its closing brace; so many lines. */
export function stylesOfLines(lines: number): string {
  const rules = Array.from({ length: Math.ceil(lines / 7) }, (_, index) => rule(index)).join('');
  const text = rules.split('\n').slice(0, lines).join('\n');
  return text.slice(0, text.lastIndexOf('}'));
}

function rule(index: number): string {
  return `.block-${index} > .name:hover,
.block-${index} .value {
  color: rgb(${index % 256} 20 30);
  margin: 0 auto ${index % 9}px 1.5em;
  border-left: 1px solid #${String(100_000 + index)};
  background: url("block-${index}.png") no-repeat;
}
`;
}
