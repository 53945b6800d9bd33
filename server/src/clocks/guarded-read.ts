// A word of a memory that another clock writes, read at an address that follows what has come over from that clock through
// flip-flops in a row: the word was written before the reader gets there (definition 39). Whether what has come over
// changes one bit at a time is for the caller to ask.

import { bitKey } from '../netlist/bit-key';
import { type Bit, memoryWords } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { coneSources } from './cone-bits';
import type { HoldQuestion } from './held-crossing';
import { dataSource } from './data-choices';
import { controlName } from './launches';
import { chainBehind, registerBitOf } from './synchronizers';

export interface GuardedRead {
  /** The address, as a person reads it. */
  readonly address: string;
  /** Bits of the sending domain that have been brought over. */
  readonly pointer: readonly Bit[];
}

/** Registers of the receiving domain between the address and what has come over, one behind the other. */
const mostBetween = 2;

/** Null where what crosses is no memory's word, or its address moves without asking the writing clock. */
export function guardedRead(question: HoldQuestion, bits: readonly Bit[]): GuardedRead | null {
  const { context, domainOf, to, toDomain } = question;
  const { netlist, nodes } = context;
  const words = memoryWords(netlist);
  const isWord = ({ node }: Bit) =>
    nodes.op[node] === Op.register && words.has(netlist.registers[nodes.aux[node]].signal);
  if (bits.length === 0 || !bits.every(isWord)) return null;
  const lanes = Array.from({ length: to.width }, (_, bit) => dataSource(context, to, bit));
  const address = coneSources(context, lanes).filter(
    ({ node }) => domainOf(node) === toDomain && node !== to.node && !isWord({ node, bit: 0 }),
  );
  const registers = [...new Set(address.map(({ node }) => node))];
  if (registers.length === 0) return null;
  const pointer = new Map<number, Bit>();
  for (const node of registers) {
    const found = broughtOver(
      question,
      address.filter((bit) => bit.node === node),
    );
    // A condition of one bit beside the address need not follow the pointer.
    if (found === null && nodes.width[node] > 1) return null;
    for (const bit of found ?? []) pointer.set(bitKey(bit), bit);
  }
  if (pointer.size === 0) return null;
  const names = [...new Set(address.map((bit) => controlName(context, bit).replace(/\[\d+\]$/, '')))];
  return { address: names.join(', '), pointer: [...pointer.values()].sort((a, b) => a.node - b.node || a.bit - b.bit) };
}

/** What of the sending domain decides a register's next value after two flip-flops or more; null where nothing does. */
function broughtOver(
  { context, domainOf, fromDomain, toDomain }: HoldQuestion,
  starts: readonly Bit[],
): readonly Bit[] | null {
  const found: Bit[] = [];
  const seen = new Set<number>();
  let waiting = [...starts];
  for (let step = 0; step <= mostBetween && found.length === 0; step++) {
    const heard = waiting.flatMap((bit) => {
      const held = registerBitOf(context, bit);
      return held === null ? [] : coneSources(context, [dataSource(context, held.register, held.bit)]);
    });
    const own = heard.filter((bit) => domainOf(bit.node) === toDomain && !seen.has(bitKey(bit)));
    for (const bit of own) {
      seen.add(bitKey(bit));
      const { end, flops } = chainBehind(context, bit);
      if (domainOf(end.node) !== fromDomain) continue;
      if (flops.length < 2) return null;
      found.push(end);
    }
    waiting = own;
  }
  return found.length === 0 ? null : found;
}
