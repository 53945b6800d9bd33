// One token of a design deleted, doubled, exchanged or put in, at places from a seed; and what of the design is still read.
// A piece is a port, a declaration, an instance, the head of a process or block, or a single statement. A damaged piece may
// be lost, and whatever the smallest construct around the damage holds; every other piece is to stay.

import type { Reading, Unit } from '../../server/src/syntax/read';
import { unitOffsetOf } from '../../server/src/text/origin';
import type { FileOffset } from '../../server/src/text/place';
import type { At, Item, ModuleTable, Statement } from '../../server/src/syntax/tables';
import { nextToken, type Token, wordOf } from '../../server/src/syntax/tokens';
import { readText } from '../tools/reading';
import { spell, spellItem, spellStatement } from '../syntax/spell';

export interface Trial {
  readonly text: string;
  readonly what: string;
  /** Spelled pieces that are gone although the damage lies outside them. */
  readonly lost: readonly string[];
  /** Pieces that the damage does not touch. */
  readonly kept: number;
  /** Names of other units whose tables have changed. */
  readonly changed: readonly string[];
}

interface Piece {
  readonly spelled: string;
  readonly at: At;
}

export interface Design {
  readonly name: string;
  readonly text: string;
  readonly reading: Reading;
}

export async function openDesign(name: string, text: string): Promise<Design> {
  return { name, text, reading: await readText(text) };
}

/** `random` gives whole numbers below its argument. */
export async function damageOnce(design: Design, random: (below: number) => number): Promise<Trial | null> {
  const { reading, text } = design;
  const tokens = tokensOf(text);
  const token = tokens[random(tokens.length)];
  const [what, damaged] = damage(text, token, tokens, random);
  const unit = reading.units.findIndex((each) => placeIn(each, token.start) !== null);
  if (unit < 0) return null;
  const own = {
    start: placeIn(reading.units[unit], token.start) ?? 0,
    end: placeIn(reading.units[unit], token.end) ?? 0,
  };
  const after = await readText(damaged);
  const others = reading.units.filter((_unit, index) => index !== unit);
  const changed = others.filter((each) => !after.units.some((found) => isSame(each, found)));
  const before = unitPieces(reading.units[unit]);
  const reach = touched(before, own);
  const untouched = before.filter(({ at }) => at.end <= reach.start || at.start >= reach.end);
  const left = after.units.flatMap(unitPieces).map(({ spelled }) => spelled);
  return {
    text: damaged,
    what: `${what} at line ${text.slice(0, token.start).split('\n').length}`,
    lost: without(
      untouched.map(({ spelled }) => spelled),
      left,
    ),
    kept: untouched.length,
    changed: changed.map(nameOf),
  };
}

/** The design as typed so far: what is lost of the pieces that stand whole before the last one. Null between units. */
export async function typedSoFar(
  design: Design,
  length: number,
): Promise<Pick<Trial, 'what' | 'lost' | 'kept'> | null> {
  const unit = design.reading.units.findIndex((each) => (placeIn(each, length) ?? 0) > 0);
  const end = placeIn(design.reading.units[unit], length);
  if (end === null) return null;
  const text = design.text.slice(0, length);
  const whole = unitPieces(design.reading.units[unit]).filter(({ at }) => at.end <= end);
  const last = Math.max(0, ...whole.map(({ at }) => at.end));
  const before = whole.filter(({ at }) => at.end < last);
  const left = (await readText(text)).units.flatMap(unitPieces).map(({ spelled }) => spelled);
  const lost = without(
    before.map(({ spelled }) => spelled),
    left,
  );
  return { what: `up to line ${text.split('\n').length}: ${text.slice(-20)}`, lost, kept: before.length };
}

function placeIn(unit: Unit | undefined, offset: number): number | null {
  return unit === undefined ? null : unitOffsetOf(unit.origin, unit.text.length, 0, offset as FileOffset);
}

function isSame(left: Unit, right: Unit): boolean {
  return nameOf(left) === nameOf(right) && JSON.stringify(left.table) === JSON.stringify(right.table);
}

function nameOf({ table }: Unit): string {
  return table.name?.name ?? '';
}

function tokensOf(text: string): readonly Token[] {
  const tokens: Token[] = [];
  for (let token = nextToken(text, 0); token.kind !== 'end'; token = nextToken(text, token.end)) tokens.push(token);
  return tokens.filter(({ kind }) => kind !== 'directive');
}

/** Words that open or close a unit, a comment or a string reach as far as the language lets them: none is put in or taken out. */
function damage(
  text: string,
  token: Token,
  tokens: readonly Token[],
  random: (below: number) => number,
): readonly [string, string] {
  const word = wordOf(text, token);
  const other = wordOf(text, tokens[random(tokens.length)]);
  const before = text.slice(0, token.start);
  const after = text.slice(token.end);
  const kinds = [
    [`without ${word}`, `${before}${after}`],
    [`${word} twice`, `${before}${word} ${word}${after}`],
    [`${other} for ${word}`, `${before}${other}${after}`],
    [`${other} before ${word}`, `${before}${other} ${word}${after}`],
    [`the line cut at ${word}`, `${before}${after.replace(/^.*/, '')}`],
  ] as const;
  return kinds[random(kinds.length)];
}

/** The smallest construct around the damage; at its edge, its neighbors too. */
function touched(pieces: readonly Piece[], damaged: { readonly start: number; readonly end: number }) {
  const around = pieces.filter(({ at }) => at.start <= damaged.start && damaged.end <= at.end);
  const smallest = around.sort((left, right) => left.at.end - left.at.start - (right.at.end - right.at.start))[0];
  return smallest?.at ?? damaged;
}

function without(expected: readonly string[], found: readonly string[]): readonly string[] {
  const left = new Map<string, number>();
  for (const each of found) left.set(each, (left.get(each) ?? 0) + 1);
  return expected.filter((each) => {
    const count = left.get(each) ?? 0;
    left.set(each, count - 1);
    return count <= 0;
  });
}

function unitPieces({ table }: Unit): readonly Piece[] {
  const module = table.kind === 'module' ? table : table.describes;
  return module === null ? [] : modulePieces(module);
}

function modulePieces(module: ModuleTable): readonly Piece[] {
  const ports = module.ports.map((port) => ({ spelled: `port ${port.declarator.name.name}`, at: port.at }));
  return [...ports, ...module.parameters.flatMap(itemPieces), ...module.items.flatMap(itemPieces)];
}

function itemPieces(item: Item): readonly Piece[] {
  const { at } = item;
  switch (item.kind) {
    case 'hole':
      return [];
    case 'process':
      return [{ spelled: `process ${item.flavor}`, at }, ...statementPieces(item.body)];
    case 'subroutine':
      return [
        { spelled: `subroutine ${item.name.name}`, at },
        ...item.declarations.flatMap(itemPieces),
        ...statementPieces(item.body),
      ];
    case 'generate-if':
      return [{ spelled: `if ${spell(item.condition)}`, at }, ...blocks([item.then, item.else])];
    case 'generate-for':
      return [{ spelled: `for ${spell(item.condition)}`, at }, ...blocks([item.body])];
    case 'generate-case':
      return [{ spelled: `case ${spell(item.selector)}`, at }, ...blocks(item.items.map(({ body }) => body))];
    case 'generate-block':
      return blocks([item.block]);
    default:
      return [{ spelled: spellItem(item), at }];
  }
}

function blocks(list: readonly ({ readonly items: readonly Item[] } | null)[]): readonly Piece[] {
  return list.flatMap((block) => block?.items.flatMap(itemPieces) ?? []);
}

function statementPieces(statement: Statement): readonly Piece[] {
  const { at } = statement;
  switch (statement.kind) {
    case 'hole':
    case 'null':
      return [];
    case 'block':
      return [
        { spelled: 'block', at },
        ...statement.declarations.flatMap(itemPieces),
        ...statement.body.flatMap(statementPieces),
      ];
    case 'if':
      return [
        { spelled: `if ${spell(statement.condition)}`, at },
        ...statementPieces(statement.then),
        ...(statement.else === null ? [] : statementPieces(statement.else)),
      ];
    case 'case':
      return [
        { spelled: `case ${spell(statement.selector)}`, at },
        ...statement.items.flatMap(({ body }) => statementPieces(body)),
      ];
    case 'event':
    case 'delay':
    case 'wait':
      return [{ spelled: statement.kind, at }, ...(statement.body === null ? [] : statementPieces(statement.body))];
    case 'for':
    case 'while':
    case 'repeat':
    case 'forever':
      return [{ spelled: statement.kind, at }, ...statementPieces(statement.body)];
    default:
      return [{ spelled: spellStatement(statement), at }];
  }
}
