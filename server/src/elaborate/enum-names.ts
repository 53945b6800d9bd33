// What an enumeration calls its values (IEEE 1800-2017 6.19), for whoever shows them. The names themselves are constants of
// the scope that the enumeration stands in.

import type { Enumeration } from '../netlist/packed-form';
import type { EnumMember, EnumTable } from '../syntax/tables';
import { integerOf } from './constant-value';
import type { ExpressionContext } from './expression-context';
import { lookUp } from './scope';

/** Members whose value is not known are left out. */
export function enumerationOf(context: ExpressionContext, table: EnumTable): Enumeration {
  const names = table.members.flatMap((member) => memberNames(context, member));
  return {
    members: names.flatMap(({ name }) => {
      const entity = lookUp(context.scope, name);
      const value = entity?.kind === 'parameter' && entity.lost() === null ? entity.value() : null;
      return value?.kind === 'bits' ? [{ name, value: value.bits }] : [];
    }),
  };
}

/** One for most; name[n] and name[a:b] stand for several (6.19.2), of which the first has the value. */
export function memberNames(
  context: ExpressionContext,
  { name: { name }, range }: EnumMember,
): readonly { readonly name: string; readonly isFirst: boolean }[] {
  if (range === null) return [{ name, isFirst: true }];
  const [first, last] = [range.msb, range.lsb].map((bound) => {
    const value = context.constant(bound);
    return value === null ? null : integerOf(value);
  });
  if (first === null || last === null || Math.abs(last - first) >= context.limits.unroll) return [];
  const step = last >= first ? 1 : -1;
  return Array.from({ length: Math.abs(last - first) + 1 }, (_, index) => ({
    name: `${name}${first + index * step}`,
    isFirst: index === 0,
  }));
}
