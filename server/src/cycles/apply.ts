// The word that an operator of the netlist gives, from those of its operands; null where it is not compiled.

import type { OperatorTables } from '../netlist/evaluate';
import { Op, type OpCode } from '../netlist/operators';
import { Kind, type Terms } from './term-kinds';
import { addWords, divideWords, multiplyWords, negateWord, shiftWord, subtractWords } from './word-arithmetic';
import { type Doubt, muxWord, readWord, selectWord, writeWord } from './word-choice';
import {
  andWords,
  bufferWord,
  equalWords,
  invertWord,
  lessWords,
  orWords,
  reduceAnd,
  reduceOr,
  reduceXor,
  resolveWords,
  tristateWord,
  xorWords,
} from './word-gates';
import { extendWord, joinWords, sliceWord, type Word } from './words';

export interface Applying {
  readonly terms: Terms;
  readonly tables: OperatorTables;
  readonly doubt: Doubt;
}

type Maker = (at: Applying, operands: readonly Word[], width: number, aux: number) => Word;

/** What is compiled of an operator: undefined where it never is. Only for operands that `isCompiled` lets pass. */
export function applyOperator(
  at: Applying,
  op: number,
  operands: readonly Word[],
  width: number,
  aux: number,
): Word | null {
  const maker = makers[op as OpCode];
  return maker === undefined || !isCompiled(op, operands) ? null : maker(at, operands, width, aux);
}

function isCompiled(op: number, operands: readonly Word[]): boolean {
  if (divisions.has(op)) return operands[0].width <= 64;
  if (op === Op.readAt || op === Op.writeAt) return operands[1].width <= 64 && operands.every(({ width }) => width > 0);
  return op === Op.concat || operands.every(({ width }) => width > 0);
}

const divisions: ReadonlySet<number> = new Set([
  Op.divideUnsigned,
  Op.divideSigned,
  Op.moduloUnsigned,
  Op.moduloSigned,
]);

const makers: Readonly<Partial<Record<OpCode, Maker>>> = {
  [Op.net]: (_, [value]) => value,
  [Op.delay]: (_, [value]) => value,
  [Op.resolve]: ({ tables, terms }, drivers, _, aux) => resolveWords(terms, tables.resolutions[aux].kind, drivers),
  [Op.concat]: ({ terms }, parts) =>
    joinWords(
      terms,
      parts.filter(({ width }) => width > 0),
    ),
  [Op.slice]: ({ terms }, [value], width, low) => sliceWord(terms, value, low, width),
  [Op.zeroExtend]: ({ terms }, [value], width) => extendWord(terms, value, width, 'zero'),
  [Op.signExtend]: ({ terms }, [value], width) => extendWord(terms, value, width, 'sign'),
  [Op.buf]: ({ terms }, [value]) => bufferWord(terms, value),
  [Op.not]: ({ terms }, [value]) => invertWord(terms, value),
  [Op.and]: ({ terms }, words) => andWords(terms, words),
  [Op.nand]: ({ terms }, words) => invertWord(terms, andWords(terms, words)),
  [Op.or]: ({ terms }, words) => orWords(terms, words),
  [Op.nor]: ({ terms }, words) => invertWord(terms, orWords(terms, words)),
  [Op.xor]: ({ terms }, words) => xorWords(terms, words),
  [Op.xnor]: ({ terms }, words) => invertWord(terms, xorWords(terms, words)),
  [Op.tristate]: ({ terms }, [data, enable]) => tristateWord(terms, data, enable),
  [Op.reduceAnd]: ({ terms }, [value]) => reduceAnd(terms, value),
  [Op.reduceOr]: ({ terms }, [value]) => reduceOr(terms, value),
  [Op.reduceXor]: ({ terms }, [value]) => reduceXor(terms, value),
  [Op.equal]: ({ terms }, [left, right]) => equalWords(terms, left, right),
  [Op.notEqual]: ({ terms }, [left, right]) => invertWord(terms, equalWords(terms, left, right)),
  [Op.lessUnsigned]: ({ terms }, [left, right]) => lessWords(terms, left, right, 'unsigned'),
  [Op.lessSigned]: ({ terms }, [left, right]) => lessWords(terms, left, right, 'signed'),
  [Op.lessEqualUnsigned]: ({ terms }, [left, right]) => invertWord(terms, lessWords(terms, right, left, 'unsigned')),
  [Op.lessEqualSigned]: ({ terms }, [left, right]) => invertWord(terms, lessWords(terms, right, left, 'signed')),
  [Op.add]: ({ terms }, [left, right]) => addWords(terms, left, right),
  [Op.subtract]: ({ terms }, [left, right]) => subtractWords(terms, left, right),
  [Op.negate]: ({ terms }, [value]) => negateWord(terms, value),
  [Op.multiply]: ({ terms }, [left, right]) => multiplyWords(terms, left, right),
  [Op.divideUnsigned]: ({ terms }, [left, right]) => divideWords(terms, left, right, Kind.divide, 'unsigned'),
  [Op.divideSigned]: ({ terms }, [left, right]) => divideWords(terms, left, right, Kind.divide, 'signed'),
  [Op.moduloUnsigned]: ({ terms }, [left, right]) => divideWords(terms, left, right, Kind.remainder, 'unsigned'),
  [Op.moduloSigned]: ({ terms }, [left, right]) => divideWords(terms, left, right, Kind.remainder, 'signed'),
  [Op.shiftLeft]: ({ terms }, [value, by]) => shiftWord(terms, value, by, 'left'),
  [Op.shiftRight]: ({ terms }, [value, by]) => shiftWord(terms, value, by, 'right'),
  [Op.shiftRightSigned]: ({ terms }, [value, by]) => shiftWord(terms, value, by, 'right-signed'),
  [Op.mux]: ({ terms }, [select, whenOne, whenZero]) => muxWord(terms, select, whenOne, whenZero),
  [Op.select]: ({ doubt, tables, terms }, operands, _, aux) =>
    selectWord(terms, operands, aux < 0 ? null : tables.caseWildcards[aux], doubt),
  [Op.readAt]: ({ doubt, terms }, [vector, index], width) => readWord(terms, vector, index, width, doubt),
  [Op.writeAt]: ({ doubt, terms }, [vector, index, piece]) => writeWord(terms, vector, index, piece, doubt),
};
