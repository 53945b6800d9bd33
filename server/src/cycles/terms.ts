// Numbers of 64 bits as a graph of terms, each made once: what one period of a circuit computes, before it becomes code.
// Making a term simplifies it (`term-rules.ts`), so that held inputs and planes that are never unknown leave no code.
// A term is true where it is not 0. Big integers hold constants while code is made; the code itself has none.

import { Kind, type Term, type Terms } from './term-kinds';
import { simplified } from './term-rules';

export function createTerms(): Terms {
  const kinds: number[] = [];
  const x: number[] = [];
  const y: number[] = [];
  const z: number[] = [];
  const sizes: number[] = [];
  const constants = new Map<number, bigint>();
  const tables: (readonly bigint[])[] = [];
  const tableIndex = new Map<string, number>();
  const known = new Map<string, Term>();

  function add(key: string, kind: number, operands: readonly number[], size: number): Term {
    const found = known.get(key);
    if (found !== undefined) return found;
    const term = kinds.length as Term;
    kinds.push(kind);
    x.push(operands[0] ?? -1);
    y.push(operands[1] ?? -1);
    z.push(operands[2] ?? -1);
    sizes.push(size);
    known.set(key, term);
    return term;
  }

  const terms: Terms = {
    zero: 0 as Term,
    kinds,
    x,
    y,
    z,
    sizes,
    tables,
    constant(value) {
      const plain = BigInt.asUintN(64, value);
      const term = add(`c${plain}`, Kind.constant, [], plain === 0n ? 0 : plain.toString(2).length);
      constants.set(term, plain);
      return term;
    },
    input: (index, size) => add(`i${index}`, Kind.input, [index], Math.min(size, 64)),
    make(kind, first, second, third) {
      const [left, right] = isTurned(kind, first, second) ? [second, first] : [first, second];
      const simple = simplified(terms, kind, left, right, third);
      if (simple !== null) return simple;
      const operands = [left, right, third].filter((operand) => operand !== undefined);
      return add(`${kind},${operands.join()}`, kind, operands, sizeOf(terms, kind, operands));
    },
    look(table, index) {
      const text = table.join();
      const number = tableIndex.get(text) ?? tables.push(table) - 1;
      tableIndex.set(text, number);
      const size = Math.max(...table.map((entry) => (entry === 0n ? 0 : entry.toString(2).length)));
      return add(`t${number},${index}`, Kind.look, [number, index], size);
    },
    valueOf: (term) => constants.get(term) ?? null,
  };

  /** Of operands that may change places the constant stands last, else the older first. */
  function isTurned(kind: number, left: Term, right: Term | undefined): right is Term {
    if (right === undefined || !turnable.has(kind)) return false;
    if (constants.has(left) !== constants.has(right)) return constants.has(left);
    return left > right;
  }

  terms.constant(0n);
  return terms;
}

const turnable: ReadonlySet<number> = new Set([
  Kind.and,
  Kind.or,
  Kind.xor,
  Kind.add,
  Kind.multiply,
  Kind.equal,
  Kind.different,
]);

function sizeOf(terms: Terms, kind: number, operands: readonly number[]): number {
  const { sizes } = terms;
  const [left, right] = operands.map((operand) => sizes[operand]);
  const amount = operands.length > 1 ? terms.valueOf(operands[1] as Term) : null;
  switch (kind) {
    case Kind.and:
    case Kind.remainder:
      return Math.min(left, right);
    case Kind.or:
    case Kind.xor:
      return Math.max(left, right);
    case Kind.add:
      return Math.min(64, Math.max(left, right) + 1);
    case Kind.multiply:
      return Math.min(64, left + right);
    case Kind.divide:
      return left;
    case Kind.shiftLeft:
      return amount === null ? 64 : Math.min(64, left + Number(amount));
    case Kind.shiftRight:
      return amount === null ? left : left - Number(amount);
    case Kind.isZero:
    case Kind.equal:
    case Kind.different:
    case Kind.less:
      return 1;
    case Kind.choose:
      return Math.max(right, sizes[operands[2]]);
    case Kind.countOnes:
      return 7;
    default:
      return 64;
  }
}
