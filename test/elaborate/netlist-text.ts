// Parts of a netlist as short text, so that a test reads like the circuit: `and(a, b[0])`, `mux(en, d, R q)`.

import { signalBitName, signalSliceName } from '../../server/src/netlist/bit-names';
import { toBinary } from '../../server/src/netlist/four-state';
import type { Bit, Latch, Netlist, NodeId, Register, Signal } from '../../server/src/netlist/netlist';
import { Op, opNames } from '../../server/src/netlist/operators';

export function signalOf(netlist: Netlist, name: string): Signal {
  const found = netlist.signals.find((signal) => signal.name === name);
  if (found !== undefined) return found;
  throw new Error(`no signal ${name}; there are ${netlist.signals.map((signal) => signal.name).join(', ')}`);
}

/** What drives each piece of a signal, most significant first. */
export function driversOf(netlist: Netlist, name: string): string[] {
  const { pieces } = signalOf(netlist, name);
  return pieces.map((piece) => nodeText(netlist, driverNode(netlist, netlist.pieces[piece].node))).reverse();
}

/** The one driver of a signal. */
export function driverOf(netlist: Netlist, name: string): string {
  const drivers = driversOf(netlist, name);
  if (drivers.length !== 1) throw new Error(`${name} has ${drivers.length} pieces: ${drivers.join(' | ')}`);
  return drivers[0];
}

function driverNode({ nodes }: Netlist, net: NodeId): NodeId {
  return nodes.pool[nodes.first[net]] as NodeId;
}

export function registerNames(netlist: Netlist): string[] {
  return netlist.registers.map((register) => stateName(netlist, register));
}

export function registerOf(netlist: Netlist, name: string): Register {
  const found = netlist.registers.find((register) => stateName(netlist, register) === name);
  if (found !== undefined) return found;
  throw new Error(`no register ${name}; there are ${registerNames(netlist).join(', ')}`);
}

export function latchOf(netlist: Netlist, name: string): Latch {
  const found = netlist.latches.find((latch) => stateName(netlist, latch) === name);
  if (found !== undefined) return found;
  throw new Error(
    `no latch ${name}; there are ${netlist.latches.map((latch) => stateName(netlist, latch)).join(', ')}`,
  );
}

function stateName(netlist: Netlist, { signal, low, width }: Register | Latch): string {
  return signalSliceName(netlist.signals[signal], low, width);
}

/** `rising clk`, then its controls in order: `low rst_n 0000`. */
export function clockingText(netlist: Netlist, { clock, edge, asynchronous }: Register): string {
  const controls = asynchronous.map(
    ({ control, active, value }) => `${active} ${bitText(netlist, control)} ${nodeText(netlist, value)}`,
  );
  return [`${edge} ${bitText(netlist, clock)}`, ...controls].join(', ');
}

export function bitText(netlist: Netlist, { node, bit }: Bit): string {
  if (netlist.nodes.op[node] !== Op.net) return `${nodeText(netlist, node)}.${bit}`;
  const piece = netlist.pieces[netlist.nodes.aux[node]];
  return signalBitName(netlist.signals[piece.signal], piece.low + bit);
}

/** Names for nets, `R name` and `L name` for stored values, binary digits for constants, else operator(operands). */
export function nodeText(netlist: Netlist, node: NodeId): string {
  const { nodes } = netlist;
  const aux = nodes.aux[node];
  switch (nodes.op[node]) {
    case Op.constant:
      return toBinary(netlist.constants[aux]);
    case Op.net: {
      const piece = netlist.pieces[aux];
      return signalSliceName(netlist.signals[piece.signal], piece.low, piece.width);
    }
    case Op.register:
      return `R ${stateName(netlist, netlist.registers[aux])}`;
    case Op.latch:
      return `L ${stateName(netlist, netlist.latches[aux])}`;
    case Op.input:
    case Op.undriven:
      return `${opNames[nodes.op[node]]}(${netlist.signals[aux].name})`;
    case Op.slice:
      return sliceText(netlist, node);
    case Op.resolve:
      return `${netlist.resolutions[aux].kind}(${operandTexts(netlist, node).join(', ')})`;
    case Op.delay:
      return `delay(${operandTexts(netlist, node).join(', ')})`;
    case Op.concat:
      return `{${operandTexts(netlist, node).join(', ')}}`;
    default:
      return `${opNames[nodes.op[node]]}(${operandTexts(netlist, node).join(', ')})`;
  }
}

function operandTexts(netlist: Netlist, node: NodeId): string[] {
  const { nodes } = netlist;
  const operands = Array.from(nodes.pool.subarray(nodes.first[node], nodes.first[node] + nodes.arity[node]));
  return operands.map((operand) => nodeText(netlist, operand as NodeId));
}

/** A slice of a name in declared indices, of anything else in bits. */
function sliceText(netlist: Netlist, node: NodeId): string {
  const { nodes } = netlist;
  const whole = nodes.pool[nodes.first[node]] as NodeId;
  const low = nodes.aux[node];
  const width = nodes.width[node];
  if (nodes.op[whole] === Op.net) {
    const piece = netlist.pieces[nodes.aux[whole]];
    return signalSliceName(netlist.signals[piece.signal], piece.low + low, width);
  }
  return `${nodeText(netlist, whole)}<${low + width - 1}:${low}>`;
}
