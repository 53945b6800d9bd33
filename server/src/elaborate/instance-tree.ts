// The instances a top module has, parents before children, each with the offsets its copy of a template gets.

import { Op } from '../netlist/operators';
import type { Place } from '../text/place';
import type { Template, TemplateChild } from './template';

export interface TreeInstance {
  readonly id: number;
  readonly template: Template;
  readonly shared: TemplateBases;
  readonly path: string;
  readonly parent: TreeInstance | null;
  readonly place: Place;
  /** How its parent instantiates it; null for the top. */
  readonly child: TemplateChild | null;
  readonly children: TreeInstance[];
  /** By child number. */
  readonly byIndex: Map<number, TreeInstance>;
  readonly bases: InstanceBases;
  /** Nodes made for what no import of this copy leads to: inputs of the top, ports left open. By signal. */
  readonly ends: Map<number, number>;
}

/** First number of each kind for one copy. */
export interface InstanceBases {
  readonly node: number;
  readonly signal: number;
  readonly piece: number;
  readonly register: number;
  readonly latch: number;
  readonly process: number;
  readonly resolution: number;
  readonly blackBox: number;
  readonly blackBoxOutput: number;
  readonly memory: number;
}

/** What all copies of a template share. */
export interface TemplateBases {
  readonly order: number;
  readonly constant: number;
  readonly place: number;
  readonly wildcards: number;
  readonly delay: number;
  /** Position of each node among those that are copied; -1 for imports. */
  readonly rank: Int32Array;
  readonly copied: number;
}

export interface InstanceTree {
  readonly instances: readonly TreeInstance[];
  /** In the order they are first met. */
  readonly templates: readonly Template[];
  readonly counts: InstanceBases;
}

/** Yields now and then. */
export function* buildTree(top: Template): Generator<void, InstanceTree> {
  const shared = new Map<Template, TemplateBases>();
  const instances: TreeInstance[] = [];
  let bases: InstanceBases = zeroBases;
  const pending: Pick<TreeInstance, 'template' | 'path' | 'parent' | 'place' | 'child'>[] = [
    { template: top, path: '', parent: null, place: top.place, child: null },
  ];
  for (let next = pending.pop(); next !== undefined; next = pending.pop()) {
    const { template, parent } = next;
    const instance: TreeInstance = {
      ...next,
      id: instances.length,
      shared: sharedBases(shared, template),
      children: [],
      byIndex: new Map(),
      bases,
      ends: new Map(),
    };
    instances.push(instance);
    if (instances.length % 512 === 0) yield;
    parent?.children.push(instance);
    if (instance.child !== null) parent?.byIndex.set(instance.child.index, instance);
    bases = basesAfter(instance, endNodes(instance));
    const children = template.children.map((child) => ({
      template: child.template,
      path: instance.path === '' ? child.path : `${instance.path}.${child.path}`,
      parent: instance,
      place: child.place,
      child,
    }));
    pending.push(...children.reverse());
  }
  return { instances, templates: [...shared.keys()], counts: bases };
}

const zeroBases: InstanceBases = {
  node: 0,
  signal: 0,
  piece: 0,
  register: 0,
  latch: 0,
  process: 0,
  resolution: 0,
  blackBox: 0,
  blackBoxOutput: 0,
  memory: 0,
};

function sharedBases(known: Map<Template, TemplateBases>, template: Template): TemplateBases {
  const found = known.get(template);
  if (found !== undefined) return found;
  let [constant, place, wildcards, delay] = [0, 0, 0, 0];
  for (const other of known.keys()) {
    constant += other.constants.length;
    place += other.places.length;
    wildcards += other.caseWildcards.length;
    delay += other.explicitDelays.length;
  }
  const { nodes } = template;
  const rank = new Int32Array(nodes.count);
  let copied = 0;
  for (let node = 0; node < nodes.count; node++) rank[node] = nodes.op[node] === Op.input ? -1 : copied++;
  const bases = { order: known.size, constant, place, wildcards, delay, rank, copied };
  known.set(template, bases);
  return bases;
}

/** Port signals whose value comes from nowhere above, each with the nodes it needs. */
function endNodes(instance: TreeInstance): number {
  const { template, child, bases, shared } = instance;
  let node = bases.node + shared.copied;
  const start = node;
  template.signals.forEach(({ port }, signal) => {
    if ((port !== 'input' && port !== 'inout') || child?.inputs.has(signal)) return;
    instance.ends.set(signal, node);
    node += nodesOfEnd(instance, signal);
  });
  return node - start;
}

/** One, or two where the top's own drivers meet an inout from outside: the world, and both resolved. */
export function nodesOfEnd({ template, parent }: TreeInstance, signal: number): number {
  return parent === null && template.exports.has(signal) ? 2 : 1;
}

function basesAfter({ bases, template, shared, parent }: TreeInstance, ends: number): InstanceBases {
  const topResolutions = parent === null ? template.exports.size : 0;
  return {
    node: bases.node + shared.copied + ends,
    signal: bases.signal + template.signals.length,
    piece: bases.piece + template.pieces.length,
    register: bases.register + template.registers.length,
    latch: bases.latch + template.latches.length,
    process: bases.process + template.processes.length,
    resolution: bases.resolution + template.resolutions.length + topResolutions,
    blackBox: bases.blackBox + template.blackBoxes.length,
    blackBoxOutput: bases.blackBoxOutput + template.blackBoxOutputs.length,
    memory: bases.memory + template.memories.length,
  };
}
