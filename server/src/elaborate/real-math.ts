// The mathematical system functions of constants (IEEE 1364-2005 17.8, 17.11.2): real arguments, real results, and the two
// that lead from one to the other.

import { type ConstantValue, integerValue } from './constant-value';

/** By name; null for a name that is none of them. */
export function realFunctionNamed(name: string): ((args: readonly number[]) => ConstantValue | null) | null {
  if (name === '$rtoi') return ([value]) => (Math.abs(value) < 2 ** 31 ? integerValue(Math.trunc(value)) : null);
  const [one, two] = [ofOne.get(name), ofTwo.get(name)];
  if (one !== undefined) return ([value]) => realValue(one(value));
  if (two !== undefined) return ([left, right]) => realValue(two(left, right));
  return null;
}

/** How many arguments it takes. */
export function realArguments(name: string): number {
  return ofTwo.has(name) ? 2 : 1;
}

function realValue(value: number): ConstantValue | null {
  return Number.isFinite(value) ? { kind: 'real', value } : null;
}

const ofOne: ReadonlyMap<string, (value: number) => number> = new Map([
  ['$itor', (value) => value],
  ['$ln', Math.log],
  ['$log10', Math.log10],
  ['$exp', Math.exp],
  ['$sqrt', Math.sqrt],
  ['$floor', Math.floor],
  ['$ceil', Math.ceil],
  ['$sin', Math.sin],
  ['$cos', Math.cos],
  ['$tan', Math.tan],
  ['$asin', Math.asin],
  ['$acos', Math.acos],
  ['$atan', Math.atan],
  ['$sinh', Math.sinh],
  ['$cosh', Math.cosh],
  ['$tanh', Math.tanh],
]);
const ofTwo: ReadonlyMap<string, (left: number, right: number) => number> = new Map([
  ['$pow', (left, right) => left ** right],
  ['$atan2', Math.atan2],
  ['$hypot', Math.hypot],
]);
