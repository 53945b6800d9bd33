// What each module of the source holds in the design: for the line that an editor shows above it.

import type { ModuleSummary } from '../elaborate/elaborate';
import { moduleWords, type ModuleContents } from '../explain/module-words';
import type { InstanceId, Netlist, RegisterId } from '../netlist/netlist';
import type { Count } from '../predict/prediction';
import type { Span } from '../text/place';
import type { DesignFacts } from './design-facts';
import type { Study } from './study';

export interface ModuleLine {
  readonly name: string;
  /** Its name in its header. */
  readonly span: Span;
  /** The design begins with it, or could. */
  readonly canBeTop: boolean;
  /** `4 registers · 1 clock`; empty for a module that is no part of the design. */
  readonly words: string;
  readonly isTestBench: boolean;
}

/** In source order. */
export function* describeModules(study: Study): Generator<void, readonly ModuleLine[]> {
  const { modules, otherTops, top } = yield* study.elaboration();
  const { spanOf } = yield* study.places();
  const facts = yield* study.early.design();
  const below = facts === null ? [] : instancesBelow(facts.netlist);
  const words = ({ name }: ModuleSummary) => (facts === null ? '' : wordsOf(facts, below, name));
  return modules.map((module) => ({
    name: module.name,
    span: spanOf(module.place),
    canBeTop: module.name === top || otherTops.includes(module.name),
    words: words(module),
    isTestBench: module.isTestBench,
  }));
}

/** By instance: itself and every instance inside it. Parents stand before their children. */
function instancesBelow({ instances }: Netlist): readonly ReadonlySet<InstanceId>[] {
  const below = instances.map(({ id }) => new Set([id]));
  for (const { id, parent } of [...instances].reverse()) {
    if (parent !== null) for (const inner of below[id]) below[parent].add(inner);
  }
  return below;
}

function wordsOf(facts: DesignFacts, below: readonly ReadonlySet<InstanceId>[], module: string): string {
  const own = facts.netlist.instances.filter((instance) => instance.module === module);
  return own.length === 0 ? '' : moduleWords(own.map(({ id }) => contentsOf(facts, below[id])));
}

function contentsOf({ netlist, network, prediction }: DesignFacts, inside: ReadonlySet<InstanceId>): ModuleContents {
  const registers = network.registers.filter((_, id) => inside.has(netlist.registers[id].instance));
  const latches = network.latches.filter((_, id) => inside.has(netlist.latches[id].instance));
  const roots = new Set([
    ...registers.flatMap((register) => register.roots),
    ...latches.flatMap(({ root }) => (root === null ? [] : [root])),
  ]);
  const isInside = (register: RegisterId) => inside.has(netlist.registers[register].instance);
  return {
    registers: registers.length,
    latches: latches.length,
    clocks: roots.size,
    chains: network.chains.filter((chain) => chain.registers.every(isInside)).map((chain) => chain.registers.length),
    sequences: chainsFirst(prediction.counts).filter((count) => count.registers.every(isInside)),
  };
}

function chainsFirst(counts: readonly Count[]): readonly Count[] {
  return [...counts.filter(({ chain }) => chain !== null), ...counts.filter(({ chain }) => chain === null)];
}
