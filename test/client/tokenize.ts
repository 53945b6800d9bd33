// Reads lines by a TextMate grammar, as far as ours use one: match, begin/end, captures, include of the repository. The
// editor's own engine runs other regular expressions; the patterns keep to what both understand.

export interface Grammar {
  readonly patterns: readonly Rule[];
  readonly repository: Readonly<Record<string, Rule>>;
}

export interface Rule {
  readonly name?: string;
  readonly include?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly captures?: Captures;
  readonly beginCaptures?: Captures;
  readonly endCaptures?: Captures;
  readonly patterns?: readonly Rule[];
}

type Captures = Readonly<Record<string, { readonly name: string }>>;

export interface Token {
  readonly text: string;
  /** The innermost name, without the language at its end; null where no rule spoke. */
  readonly scope: string | null;
}

/** Tokens of a text, line after line; blank ones are left out. */
export function tokenize(grammar: Grammar, text: string): readonly Token[] {
  const open: Rule[] = [];
  return text.split('\n').flatMap((line) => tokenizeLine(grammar, open, line));
}

/** `open` are the rules begun and not ended, and changes with the line. */
function tokenizeLine(grammar: Grammar, open: Rule[], line: string): Token[] {
  const tokens: Token[] = [];
  let at = 0;
  while (at <= line.length) {
    const inside = open.at(-1);
    const found = nextMatch(grammar, inside, line, at);
    const until = found?.match.index ?? line.length;
    tokens.push({ text: line.slice(at, until), scope: scopeOf(inside) });
    if (found === null) break;
    const { isEnd, match, rule } = found;
    if (isEnd) open.pop();
    else if (rule.begin !== undefined) open.push(rule);
    tokens.push(...captured(rule, match, capturesOf(rule, isEnd)));
    // A rule that matches nothing must not be tried at the same place again.
    at = until + match[0].length;
    if (match[0].length === 0 && !isEnd) at += 1;
  }
  return tokens.filter((token) => token.text.trim() !== '');
}

interface Found {
  readonly rule: Rule;
  readonly match: RegExpExecArray;
  readonly isEnd: boolean;
}

/** The leftmost match; of several at one place the end of the open rule, then the first listed. */
function nextMatch(grammar: Grammar, inside: Rule | undefined, line: string, at: number): Found | null {
  const ends = inside?.end === undefined ? [] : [{ rule: inside, pattern: inside.end, isEnd: true }];
  const rules = flatten(grammar, inside === undefined ? grammar.patterns : (inside.patterns ?? []));
  const starts = rules.map((rule) => ({ rule, pattern: rule.match ?? rule.begin ?? '(?!)', isEnd: false }));
  let best: Found | null = null;
  for (const { isEnd, pattern, rule } of [...ends, ...starts]) {
    const search = new RegExp(pattern, 'g');
    search.lastIndex = at;
    const match = search.exec(line);
    if (match !== null && (best === null || match.index < best.match.index)) best = { rule, match, isEnd };
  }
  return best;
}

function flatten(grammar: Grammar, rules: readonly Rule[]): readonly Rule[] {
  return rules.flatMap((rule) => {
    if (rule.include !== undefined) return flatten(grammar, [grammar.repository[rule.include.slice(1)]]);
    if (rule.match === undefined && rule.begin === undefined) return flatten(grammar, rule.patterns ?? []);
    return [rule];
  });
}

function capturesOf(rule: Rule, isEnd: boolean): Captures {
  if (rule.match !== undefined) return rule.captures ?? {};
  return (isEnd ? rule.endCaptures : rule.beginCaptures) ?? {};
}

/** The groups of a match in order; a match without captures is one token. Groups of ours follow one another. */
function captured(rule: Rule, match: RegExpExecArray, captures: Captures): Token[] {
  const groups = Object.keys(captures).filter((group) => group !== '0');
  if (groups.length === 0) return [{ text: match[0], scope: captures['0'] ? scopeOf(captures['0']) : scopeOf(rule) }];
  return groups.flatMap((group) => {
    const text = match[Number(group)];
    return text === undefined ? [] : [{ text, scope: scopeOf(captures[group]) }];
  });
}

function scopeOf(rule: { readonly name?: string } | undefined): string | null {
  return rule?.name?.replace(/\.(system)?verilog$/, '') ?? null;
}
