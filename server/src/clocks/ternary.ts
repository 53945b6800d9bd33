// What a bit must be when some bits are known and all others are not: 0, 1 or unknown. Looks through a few flip-flops
// where asked, as if the known bits had been so for as many clock edges. Arithmetic is never looked into.

import { bitKey } from '../netlist/bit-key';
import type { Bit } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { constantLevel, type Context, opOf, operandSource, operandSources, sourceOf } from './context';
import { type GateStep, type Step, stepOf } from './gate-shape';
import { createMemoWalk, type MemoWalk } from './memo-walk';

export type Level = 0 | 1 | 'x';

/** Levels by key of the source bit. */
type KnownLevels = ReadonlyMap<number, 0 | 1>;

/** `flops`: how many register outputs may be looked through on a path; their own asynchronous controls inactive. */
export function levelUnder(context: Context, bit: Bit, known: KnownLevels, flops: number): Level {
  return levelWalk(context, known, flops)(sourceOf(context, bit));
}

function levelWalk(context: Context, known: KnownLevels, flops: number): MemoWalk<Level> {
  let earlier: MemoWalk<Level> | null = null;
  const before = (bit: Bit): Level => {
    earlier ??= levelWalk(context, known, flops - 1);
    return earlier(bit);
  };
  return createMemoWalk<Level>({
    operandsOf(bit) {
      if (known.has(bitKey(bit)) || constantLevel(context, bit) !== null) return [];
      return operandsIn(context, bit, stepOf(context, bit));
    },
    valueOf(bit, _operands, values) {
      const level = known.get(bitKey(bit)) ?? constantLevel(context, bit);
      if (level !== null) return level;
      const step = stepOf(context, bit);
      if (step.kind === 'register') {
        const { data } = context.netlist.registers[step.register];
        return flops > 0 ? before(sourceOf(context, { node: data, bit: step.bit })) : 'x';
      }
      return levelOf(
        context,
        bit,
        step,
        values.map((value) => value ?? 'x'),
      );
    },
  });
}

/** In the order that `levelOf` reads them. */
function operandsIn(context: Context, bit: Bit, step: Step): readonly Bit[] {
  if (step.kind === 'pass') return [step.operand];
  if (step.kind !== 'gate') return [];
  const op = opOf(context, bit);
  if (op === Op.mux) return [operandSource(context, bit.node, 0, 0), ...muxData(context, bit)];
  if (op === Op.equal || op === Op.notEqual) return comparedBits(context, bit);
  return step.operands;
}

function muxData(context: Context, { node, bit }: Bit): Bit[] {
  return [1, 2].map((operand) => operandSource(context, node, operand, bit));
}

function comparedBits(context: Context, { node }: Bit): Bit[] {
  return [...operandSources(context, node, 0), ...operandSources(context, node, 1)];
}

function levelOf(context: Context, bit: Bit, step: Step, levels: readonly Level[]): Level {
  if (step.kind === 'pass') return step.inverted ? not(levels[0]) : levels[0];
  if (step.kind !== 'gate') return 'x';
  const op = opOf(context, bit);
  if (op === Op.mux) return choose(levels);
  if (op === Op.equal) return equal(levels);
  if (op === Op.notEqual) return not(equal(levels));
  return step.inverted ? not(gateLevel(step, levels)) : gateLevel(step, levels);
}

function gateLevel({ shape, constantLevel: level }: GateStep, levels: readonly Level[]): Level {
  switch (shape) {
    case 'and':
      return and(levels);
    case 'or':
      return not(and(levels.map(not)));
    case 'xor':
      return levels.reduce(exclusiveOr, 0);
    case 'choice':
      return agreed(level === null ? levels : [...levels, level]);
    case 'other':
      return 'x';
  }
}

function not(level: Level): Level {
  return level === 'x' ? 'x' : level === 0 ? 1 : 0;
}

function and(levels: readonly Level[]): Level {
  if (levels.includes(0)) return 0;
  return levels.includes('x') ? 'x' : 1;
}

function exclusiveOr(left: Level, right: Level): Level {
  if (left === 'x' || right === 'x') return 'x';
  return left === right ? 0 : 1;
}

function agreed([first, ...others]: readonly Level[]): Level {
  return others.every((level) => level === first) ? first : 'x';
}

function choose([select, whenOne, whenZero]: readonly Level[]): Level {
  if (select === 'x') return agreed([whenOne, whenZero]);
  return select === 1 ? whenOne : whenZero;
}

/** Two operands after each other, bit by bit. */
function equal(levels: readonly Level[]): Level {
  const half = levels.length / 2;
  const pairs = levels.slice(0, half).map((level, index) => not(exclusiveOr(level, levels[half + index])));
  return and(pairs);
}
