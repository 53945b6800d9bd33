// The netlist's logic as single-bit gates between variables, made bit by bit as it is asked for. Variables are what
// holds still between changes: register and latch bits, ports, black box outputs, memory words; and `cell`s: outputs of
// operators that take time, which follow their function later. A product, quotient or power is `opaque`: its settled
// value is known to whoever runs the netlist, what it does in between is not. So is what is read from a memory kept as one
// content, by the bits of its address; what the memory holds is not followed. Combinational loops read x.

import { bitKey } from '../netlist/bit-key';
import { digitAt } from '../netlist/four-state';
import { type Bit, type Netlist, type NodeId, operand } from '../netlist/netlist';
import { isMemoryOperator, isSource, isWiring, Op } from '../netlist/operators';
import { visitOperandsOfBit } from '../netlist/trace';
import {
  createGates,
  type Gates,
  type Literal,
  oneLiteral,
  unknownLiteral,
  variableOf,
  zeroLiteral,
} from './glitch-gates';
import { isOpaque, type OperatorContext, operatorLiteral } from './glitch-operators';

export type VariableKind = 'register' | 'latch' | 'input' | 'blackBox' | 'memory' | 'cell' | 'opaque';

export interface Variable {
  readonly bit: Bit;
  readonly kind: VariableKind;
}

export interface Logic {
  readonly netlist: Netlist;
  readonly gates: Gates;
  /** By number, in the order they were met. */
  readonly variables: readonly Variable[];
  readonly takesTime: (node: NodeId) => boolean;
  readonly made: Map<number, Literal>;
  readonly functions: Map<number, Literal>;
  readonly operators: OperatorContext;
}

/** `takesTime`: whether an operator's output follows its operands later, so that it is a cell. */
export function createLogic(netlist: Netlist, takesTime: (node: NodeId) => boolean): Logic {
  const gates = createGates();
  const made = new Map<number, Literal>();
  const read = (node: NodeId, bit: number): Literal => made.get(bitKey({ node, bit })) ?? unknownLiteral;
  const operators = { netlist, nodes: netlist.nodes, gates, read, carries: new Map(), matches: new Map() };
  return { netlist, gates, variables: [], takesTime, made, functions: new Map(), operators };
}

/** The literal of a bit; made once. */
export function literalOf(logic: Logic, wanted: Bit): Literal {
  const { made } = logic;
  const open = new Set<number>();
  const waiting: Bit[] = [wanted];
  for (let bit = waiting.at(-1); bit !== undefined; bit = waiting.at(-1)) {
    const key = bitKey(bit);
    if (!made.has(key) && !open.has(key) && !endsAt(logic, bit.node)) {
      open.add(key);
      pushOperands(logic, bit, open, waiting);
      continue;
    }
    waiting.pop();
    if (!made.has(key)) made.set(key, endLiteral(logic, bit) ?? operatorLiteral(logic.operators, bit));
  }
  return made.get(bitKey(wanted)) ?? unknownLiteral;
}

/** What a cell follows. */
export function functionOf(logic: Logic, variable: number): Literal {
  const known = logic.functions.get(variable);
  if (known !== undefined) return known;
  heardBy(logic, variable);
  const literal = operatorLiteral(logic.operators, logic.variables[variable].bit);
  logic.functions.set(variable, literal);
  return literal;
}

/** What a cell or an opaque bit hears; of a memory's word its address. */
export function heardBy(logic: Logic, variable: number): readonly Literal[] {
  const { nodes } = logic.netlist;
  const { bit: own, kind } = logic.variables[variable];
  const content = kind === 'memory' ? operand(nodes, own.node, 0) : null;
  const operands: Bit[] = [];
  visitOperandsOfBit(nodes, own, (node, bit) => {
    if (node !== content) operands.push({ node, bit });
  });
  return operands.map((bit) => literalOf(logic, bit));
}

/** What is open already closes a loop, and will be read as x. */
function pushOperands({ netlist, made }: Logic, bit: Bit, open: ReadonlySet<number>, waiting: Bit[]): void {
  visitOperandsOfBit(netlist.nodes, bit, (node, index) => {
    const key = bitKey({ node, bit: index });
    if (!made.has(key) && !open.has(key)) waiting.push({ node, bit: index });
  });
}

function endsAt({ netlist, takesTime }: Logic, node: NodeId): boolean {
  const op = netlist.nodes.op[node];
  if (isSource(op) || isMemoryOperator(op)) return true;
  return !isWiring(op) && (isOpaque(op) || takesTime(node));
}

/** Null for what goes on to its operands. */
function endLiteral(logic: Logic, bit: Bit): Literal | null {
  if (!endsAt(logic, bit.node)) return null;
  const kind = kindAt(logic, bit.node);
  if (kind === null) return sourceLiteral(logic, bit);
  const variables = logic.variables as Variable[];
  return variableOf(logic.gates, variables.push({ bit, kind }) - 1);
}

function kindAt({ netlist }: Logic, node: NodeId): VariableKind | null {
  const op = netlist.nodes.op[node];
  switch (op) {
    case Op.constant:
    case Op.undriven:
    case Op.hole:
      return null;
    case Op.register:
      return 'register';
    case Op.latch:
      return 'latch';
    case Op.input:
      return 'input';
    case Op.blackBox:
      return 'blackBox';
    case Op.memoryRead:
      return 'memory';
    default:
      return isOpaque(op) || isMemoryOperator(op) ? 'opaque' : 'cell';
  }
}

function sourceLiteral({ netlist }: Logic, { node, bit }: Bit): Literal {
  if (netlist.nodes.op[node] !== Op.constant) return unknownLiteral;
  const digit = digitAt(netlist.constants[netlist.nodes.aux[node]], bit);
  return digit === '0' ? zeroLiteral : digit === '1' ? oneLiteral : unknownLiteral;
}
