// What the text calls the values of a register: constants of its module that it is given or compared with by name, or that
// stand as labels in a case over it. Read from the words of the processes that use it. A value with two names has none.

import { toBigInt } from '../netlist/four-state';
import type { Netlist, RegisterId } from '../netlist/netlist';
import type { DesignFacts } from './design-facts';

/** By value; empty where the register is a part of its signal, or the text names nothing. */
export function stateNames({ netlist, places }: DesignFacts, id: RegisterId): ReadonlyMap<bigint, string> {
  const { instance, signal: signalId, width } = netlist.registers[id];
  const signal = netlist.signals[signalId];
  if (signal.width !== width) return new Map();
  const constants = constantsOf(netlist, instance, width);
  if (constants.size === 0) return new Map();
  const texts = netlist.processes
    .filter((process) => process.instance === instance)
    .map(({ place }) => places.textOf(place).replace(/\/\*.*?\*\//g, ' '));
  const named = new Set(texts.flatMap((text) => namesFor(text, signal.localName)));
  const found = new Map<bigint, string[]>();
  for (const [name, value] of constants) if (named.has(name)) found.set(value, [...(found.get(value) ?? []), name]);
  return new Map(
    Array.from(found).flatMap(([value, names]) => (names.length === 1 ? [[value, names[0]] as const] : [])),
  );
}

function constantsOf({ instances }: Netlist, instance: number, width: number): ReadonlyMap<string, bigint> {
  const fitting = instances[instance].parameters.flatMap(({ name, value }) => {
    const number = toBigInt(value);
    return number === null || number >= 1n << BigInt(width) ? [] : [[name, number] as const];
  });
  return new Map(fitting);
}

/** Words that stand beside the signal as its value. */
function namesFor(text: string, signal: string): readonly string[] {
  const word = signal.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  const beside = new RegExp(`(?<![\\w.$])${word}\\s*(?:<=|={1,3}|!={1,2})\\s*(?:#\\s*\\S+\\s+)?([A-Za-z_]\\w*)`, 'g');
  return [...Array.from(text.matchAll(beside), ([, name]) => name), ...labelsFor(text, signal)];
}

/** Labels of every case over the signal: words before a colon, with those of cases inside it left out. */
function labelsFor(text: string, signal: string): readonly string[] {
  const found: string[] = [];
  const open: string[] = [];
  for (const [, selector, end, labels] of text.matchAll(
    /\bcase[xz]?\s*\(\s*([\w.$]*)[^)]*\)|\b(endcase)\b|(?<=[;)]|\bend|\bbegin|\belse)\s*([A-Za-z_]\w*(?:\s*,\s*[A-Za-z_]\w*)*)\s*:(?!:)/g,
  )) {
    if (selector !== undefined) open.push(selector);
    else if (end !== undefined) open.pop();
    else if (open[open.length - 1] === signal) found.push(...labels.split(/\s*,\s*/));
  }
  return found;
}
