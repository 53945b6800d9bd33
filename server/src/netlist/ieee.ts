// The places where IEEE 1364-2005, to the letter, differs from the hardware reading of the netlist. For constants,
// initial blocks and functions of constants; the operators that do not differ are in `evaluate.ts`.

import { type Bits, digitBits, equalBits, hasUnknown } from './four-state';
import { merge } from './four-state-parts';

/** `===`: every digit alike, x and z included (5.1.8). Operands of one width. Always known. */
export function caseEqual(left: Bits, right: Bits): Bits {
  return digitBits(equalBits(left, right) ? '1' : '0');
}

/** `!==` (5.1.8). */
export function caseNotEqual(left: Bits, right: Bits): Bits {
  return digitBits(equalBits(left, right) ? '0' : '1');
}

/**
 * Whether a case item is taken (9.5, 9.5.1), operands of one width. `case`: exact, as `===`. `casez`: a bit that is z
 * in either is not compared. `casex`: a bit that is x or z in either is not compared.
 */
export function caseMatches(kind: 'case' | 'casez' | 'casex', selector: Bits, item: Bits): boolean {
  for (let limb = 0; limb < selector.a.length; limb++) {
    const differs = (selector.a[limb] ^ item.a[limb]) | (selector.b[limb] ^ item.b[limb]);
    if ((differs & ~freeBits(kind, selector, item, limb)) !== 0) return false;
  }
  return true;
}

/** Whether `if`, `while`, `for` and `?:` take a value as true: some bit is a known 1 (9.4). x and z alone are false. */
export function isTrue(condition: Bits): boolean {
  for (let limb = 0; limb < condition.a.length; limb++) {
    if ((condition.a[limb] & ~condition.b[limb]) !== 0) return true;
  }
  return false;
}

/** Whether a condition is certainly false: every bit a known 0. */
export function isFalse(condition: Bits): boolean {
  return !hasUnknown(condition) && !isTrue(condition);
}

/** `condition ? whenTrue : whenFalse` (5.1.13): an ambiguous condition combines both bit by bit, Table 5-21. */
export function conditional(condition: Bits, whenTrue: Bits, whenFalse: Bits): Bits {
  if (isTrue(condition)) return whenTrue;
  return isFalse(condition) ? whenFalse : merge(whenTrue, whenFalse);
}

function freeBits(kind: 'case' | 'casez' | 'casex', selector: Bits, item: Bits, limb: number): number {
  if (kind === 'case') return 0;
  if (kind === 'casex') return selector.b[limb] | item.b[limb];
  return (selector.b[limb] & ~selector.a[limb]) | (item.b[limb] & ~item.a[limb]);
}
