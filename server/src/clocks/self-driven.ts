// Whether a register toggles or counts (definition 10): its next state is made of its own bits, with enables, clears
// and constants, and turns at least one of them. A shift from elsewhere, a load, an accumulator of data does not.

import { bitKey } from '../netlist/bit-key';
import type { Bit, Register } from '../netlist/netlist';
import { isSource } from '../netlist/operators';
import { coneOperands, coneStart } from './cone-bits';
import { constantLevel, type Context, opOf, sourceOf } from './context';
import { type GateStep, stepOf } from './gate-shape';

/** What the next value of one bit does: `moves` is a function of the register's own bits that is not that bit itself. */
type Motion = 'holds' | 'constant' | 'moves' | 'foreign';

interface Study {
  readonly context: Context;
  readonly register: Register;
  /** Inputs from outside that turn bits by an exclusive or or are counted: one enables, several are data. */
  readonly enables: Set<number>;
  /** Work left: a counter's own logic is small, so a large cone is no counter. */
  left: number;
}

export function isSelfDriven(context: Context, register: Register): boolean {
  const study: Study = { context, register, enables: new Set(), left: 2_000 + 32 * register.width };
  let moves = false;
  for (let bit = 0; bit < register.width; bit++) {
    const motion = motionOf(study, bit);
    if (motion === 'foreign') return false;
    moves ||= motion === 'moves';
  }
  return moves && study.enables.size <= 1;
}

/** Follows every branch that the data of one bit may come by; what selects between them is an enable or a clear. */
function motionOf(study: Study, index: number): Motion {
  const { context, register } = study;
  const waiting: { bit: Bit; inverted: boolean }[] = [
    { bit: sourceOf(context, { node: register.data, bit: index }), inverted: false },
  ];
  const seen = new Set<number>();
  let result: Motion = 'constant';
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { bit, inverted } = next;
    const key = bitKey(bit) * 2 + (inverted ? 1 : 0);
    if (seen.has(key)) continue;
    seen.add(key);
    if (--study.left < 0) return 'foreign';
    if (constantLevel(context, bit) !== null) continue;
    const step = stepOf(context, bit);
    if (step.kind === 'register') result = joined(result, ownMotion(study, step, index, inverted));
    else if (step.kind === 'pass') waiting.push({ bit: step.operand, inverted: inverted !== step.inverted });
    else if (step.kind !== 'gate') return 'foreign';
    else if (step.shape === 'choice') for (const operand of step.operands) waiting.push({ bit: operand, inverted });
    else {
      const followed = followedOperands(study, step);
      if (followed === null) return 'foreign';
      if (followed.moves) result = 'moves';
      for (const operand of followed.operands) waiting.push({ bit: operand, inverted: inverted !== step.inverted });
    }
    if (result === 'foreign') return result;
  }
  return result;
}

function ownMotion(
  { register }: Study,
  step: { readonly register: number; readonly bit: number },
  index: number,
  inverted: boolean,
): Motion {
  if (step.register !== register.id) return 'foreign';
  return step.bit === index && !inverted ? 'holds' : 'moves';
}

function joined(left: Motion, right: Motion): Motion {
  for (const motion of ['foreign', 'moves', 'holds'] as const) if (left === motion || right === motion) return motion;
  return 'constant';
}

/**
 * The operands of a gate to follow, and whether the gate itself already turns bits. Null where the gate lets data in
 * from elsewhere. Of an and or an or, an operand without own bits enables or clears; of any other gate it may be one
 * bit for the whole register.
 */
function followedOperands(study: Study, step: GateStep): { moves: boolean; operands: readonly Bit[] } | null {
  const open = step.operands.filter((operand) => constantLevel(study.context, operand) === null);
  const hears = open.map((operand) => hearing(study, operand));
  const own = open.filter((_, index) => hears[index] !== 'others');
  if (own.length === 0) return null;
  if (step.shape === 'and' || step.shape === 'or') {
    // Two operands of own bits make a function of both, which is neither of them.
    return { moves: own.length > 1, operands: own };
  }
  for (const [index, operand] of open.entries()) if (hears[index] === 'others') study.enables.add(bitKey(operand));
  if (step.shape === 'xor') return { moves: true, operands: own };
  return hears.includes('both') ? null : { moves: true, operands: [] };
}

/** Whether a bit is computed from the register's own bits, from others, or from both. */
function hearing(study: Study, start: Bit): 'own' | 'others' | 'both' {
  const { context, register } = study;
  let own = false;
  let others = false;
  const seen = new Set<number>();
  const waiting = [coneStart(context, start)];
  for (let bit = waiting.pop(); bit !== undefined; bit = waiting.pop()) {
    if (seen.has(bitKey(bit))) continue;
    seen.add(bitKey(bit));
    if (--study.left < 0) return 'both';
    if (bit.node === register.node) own = true;
    else if (isSource(opOf(context, bit))) others ||= constantLevel(context, bit) === null;
    else for (const operand of coneOperands(context, bit)) waiting.push(operand);
    if (own && others) return 'both';
  }
  return own ? 'own' : 'others';
}
