// Which operands of a gate or multiplexer are clocks and which are controls: the ordered rules of definition 4. Where
// no rule decides, nothing is guessed: the operands that could be it are named.

import { bitKey } from '../netlist/bit-key';
import type { Bit } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { constantLevel, type Context, opOf, sameBit } from './context';
import { distinct, type GateStep } from './gate-shape';
import { controlName } from './launches';
import { isNamedAsClock, type OperandEvidence } from './operand-evidence';
import { peel, peelToName } from './peel';

export interface ClockOperands {
  /** `decode`: logic of registers alone; `switch`: a choice between clocks; `unclear`: no clock told. */
  readonly style: 'gate' | 'switch' | 'decode' | 'unclear';
  readonly clocks: readonly Bit[];
  readonly controls: readonly Bit[];
  /** Names that could be the clock; only of an unclear gate. */
  readonly candidates: readonly string[];
  readonly assumedFromName: string | null;
}

interface Question {
  readonly context: Context;
  readonly evidence: OperandEvidence;
  readonly output: Bit;
  readonly step: GateStep;
  /** Operands and selects that are no constants. */
  readonly open: readonly Bit[];
}

export function clockOperands(context: Context, evidence: OperandEvidence, output: Bit, step: GateStep): ClockOperands {
  const all = distinct([...step.operands, ...step.selects]);
  const open = all.filter((bit) => constantLevel(context, bit) === null);
  const question: Question = { context, evidence, output, step, open };
  const decision = statedOperand(question) ?? decideByStructure(question) ?? decideByPorts(question);
  return finished(question, all, decision);
}

interface Decision {
  readonly style: ClockOperands['style'];
  readonly clocks: readonly Bit[];
  readonly assumedFromName?: string | null;
}

function statedOperand({ context, output, open }: Question): Decision | null {
  const stated = statedName(context, output);
  if (stated === null) return null;
  const clocks = open.filter((bit) => namesOf(context, bit).includes(stated));
  return clocks.length > 0 ? { style: 'gate', clocks } : null;
}

function statedName(context: Context, output: Bit): string | null {
  const name = context.names.canonicalNameOf(output);
  const { clockOperands: stated } = context.options;
  return name !== null && Object.hasOwn(stated, name) ? stated[name] : null;
}

/** A person may state an operand by its own name or by that of what it is after buffers and inverters. */
function namesOf(context: Context, bit: Bit): (string | null)[] {
  return [context.names.nameOf(bit), nameOf(context, bit), context.names.nameOf(peel(context, bit).bit)];
}

function decideByStructure(question: Question): Decision | null {
  const { evidence, step, open } = question;
  if (open.length === 1) return { style: 'gate', clocks: open };
  if (isChoiceOfClocks(question)) return { style: 'switch', clocks: step.operands };
  if (open.length > 0 && open.every(evidence.isFromRegisters)) return { style: 'decode', clocks: open };
  return fromEdgeLists(question) ?? fromLatches(question) ?? fromChoice(question) ?? fromStorage(question);
}

/** Two or more data, of which one clocks something elsewhere, or which are all register outputs and no logic. */
function isChoiceOfClocks({ context, evidence, step }: Question): boolean {
  if (step.shape !== 'choice' || step.operands.length < 2) return false;
  if (step.operands.some(evidence.standsInEdgeList)) return true;
  if (step.selects.some(evidence.standsInEdgeList)) return false;
  return step.operands.every((bit) => opOf(context, peel(context, bit).bit) === Op.register);
}

/**
 * An operand that clocks something elsewhere. Where one of several such is not made of registers alone, those that are
 * count as controls: in `clk & q` a q that also clocks a register still gates clk.
 */
function fromEdgeLists({ evidence, step, open }: Question): Decision | null {
  const first = step.shape === 'choice' ? step.operands.filter(evidence.standsInEdgeList) : [];
  const listed = first.length > 0 ? first : open.filter(evidence.standsInEdgeList);
  if (listed.length === 0) return null;
  const outside = listed.filter((bit) => !evidence.isFromRegisters(bit));
  return { style: 'gate', clocks: outside.length > 0 ? outside : listed };
}

/** In `clk & held`, held being a latch that clk opens, clk is the clock even where it stands in no edge list. */
function fromLatches({ context, evidence, open }: Question): Decision | null {
  const gates = open.map(evidence.latchGateOf).filter((gate) => gate !== null);
  const clocks = open.filter((bit) => gates.some((gate) => sameBit(gate, peel(context, bit).bit)));
  return clocks.length > 0 ? { style: 'gate', clocks } : null;
}

function fromChoice({ step }: Question): Decision | null {
  if (step.shape !== 'choice' || step.operands.length === 0) return null;
  return { style: step.operands.length > 1 ? 'switch' : 'gate', clocks: step.operands };
}

function fromStorage({ evidence, open }: Question): Decision | null {
  return open.length > 0 && open.every(evidence.isFromStorage) ? { style: 'decode', clocks: open } : null;
}

/** A port that feeds data elsewhere is a control; of what is left, a clock's name decides, and is reported. */
function decideByPorts({ context, evidence, open }: Question): Decision {
  const left = open.filter((bit) => !evidence.isPortFeedingData(bit));
  if (left.length === 1) return { style: 'gate', clocks: left };
  const named = (left.length > 0 ? left : open).filter((bit) => isNamedAsClock(nameOf(context, bit) ?? ''));
  if (named.length === 0) return { style: 'unclear', clocks: [] };
  return { style: 'gate', clocks: named, assumedFromName: nameOf(context, named[0]) };
}

function finished({ context, evidence, open }: Question, all: readonly Bit[], decision: Decision): ClockOperands {
  const { style, clocks } = decision;
  const chosen = new Set(clocks.map(bitKey));
  const left = open.filter((bit) => !evidence.isPortFeedingData(bit));
  const unclear = style === 'unclear' ? (left.length > 0 ? left : open) : [];
  return {
    style,
    clocks,
    controls: all.filter((bit) => !chosen.has(bitKey(bit))),
    candidates: unclear.map((bit) => controlName(context, bit)),
    assumedFromName: decision.assumedFromName ?? null,
  };
}

function nameOf(context: Context, bit: Bit): string | null {
  return context.names.canonicalNameOf(peelToName(context, bit).bit);
}
