// When an event of a timing check happens in finished waves (IEEE 1364-2005 15.4, 15.6): the instants at which a bit of it
// goes from one level to another that counts. What a bit passes inside one instant is no change.

import type { Bit, CheckEvent } from '../netlist/netlist';
import { levelAt } from './wave-query';
import type { Level, Waves } from './waves';

export interface Occurrence {
  /** ps */
  readonly time: number;
  /** Index of the change. */
  readonly change: number;
}

/** In order of time. */
export function occurrencesOf(waves: Waves, { bits, condition, edges }: CheckEvent): readonly Occurrence[] {
  const found = bits.flatMap((bit) => changesOf(waves, bit, edges));
  const counted =
    condition === null ? found : found.filter(({ time }) => levelAt(waves, condition, time, 'after') !== 0);
  return bits.length === 1
    ? counted
    : counted.sort((left, right) => left.time - right.time || left.change - right.change);
}

function changesOf(waves: Waves, bit: Bit, edges: readonly string[]): Occurrence[] {
  const { time, value } = waves.changes;
  const indices = waves.changesOf(bit);
  const found: Occurrence[] = [];
  let before: Level = waves.startOf(bit);
  for (let index = 0; index < indices.length; index++) {
    const change = indices[index];
    const isLast = index + 1 === indices.length || time[indices[index + 1]] !== time[change];
    if (!isLast) continue;
    const after = value[change] as Level;
    if (after !== before && isCounted(edges, before, after)) found.push({ time: time[change], change });
    before = after;
  }
  return found;
}

/** z counts as x. */
function isCounted(edges: readonly string[], before: Level, after: Level): boolean {
  const pair = `${digits[before]}${digits[after]}`;
  return pair !== 'xx' && (edges.length === 0 || edges.includes(pair));
}

const digits = ['0', '1', 'x', 'x'];
