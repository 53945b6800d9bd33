// A walk over bits that answers each bit once, operands before what is made of them. Flat: depth costs no stack.
// A bit that hangs on itself sees null for the operand that is still open; what that means is the rules' business.

import { bitKey } from '../netlist/bit-key';
import type { Bit } from '../netlist/netlist';

interface WalkRules<Value> {
  operandsOf(bit: Bit): readonly Bit[];
  /** `values` in the order of `operands`; null for an operand whose own value waits for this bit. */
  valueOf(bit: Bit, operands: readonly Bit[], values: readonly (Value | null)[]): Value;
}

export type MemoWalk<Value> = (bit: Bit) => Value;

interface Frame {
  readonly bit: Bit;
  readonly key: number;
  readonly operands: readonly Bit[];
  next: number;
}

export function createMemoWalk<Value>(rules: WalkRules<Value>): MemoWalk<Value> {
  /** Undefined while a bit is open. */
  const values = new Map<number, Value | undefined>();
  const stack: Frame[] = [];

  function open(bit: Bit): void {
    const key = bitKey(bit);
    if (values.has(key)) return;
    values.set(key, undefined);
    stack.push({ bit, key, operands: rules.operandsOf(bit), next: 0 });
  }

  function close(frame: Frame): void {
    stack.pop();
    const known = frame.operands.map((operand) => values.get(bitKey(operand)) ?? null);
    values.set(frame.key, rules.valueOf(frame.bit, frame.operands, known));
  }

  return (start) => {
    const bottom = stack.length;
    open(start);
    while (stack.length > bottom) {
      const frame = stack[stack.length - 1];
      if (frame.next < frame.operands.length) open(frame.operands[frame.next++]);
      else close(frame);
    }
    return values.get(bitKey(start)) as Value;
  };
}
