// Paths and timing checks of every instance, with the nodes of the linked netlist.

import type { Bit, CheckEvent, InstanceId, NodeColumns, NodeId, SignalId, TimingCheck } from '../netlist/netlist';
import type { InstanceTree, TreeInstance } from './instance-tree';
import { linkedNode } from './link-nodes';
import type { TemplateEvent, TemplatePath } from './template';

/** A path in one instance. */
export interface LinkedPath extends Omit<TemplatePath, 'condition'> {
  readonly instance: InstanceId;
  readonly condition: Bit | null;
}

export interface LinkedSpecified {
  readonly paths: readonly LinkedPath[];
  readonly checks: readonly TimingCheck[];
}

/** Null where no instance has any. */
export function linkSpecified({ instances }: InstanceTree, nodes: NodeColumns): LinkedSpecified | null {
  const parts = instances.flatMap((instance) => (instance.template.specified === null ? [] : [instance]));
  if (parts.length === 0) return null;
  return { paths: parts.flatMap(linkPaths), checks: parts.flatMap((instance) => linkChecks(instance, nodes)) };
}

function linkPaths(instance: TreeInstance): LinkedPath[] {
  const { bases, id, template } = instance;
  return (template.specified?.paths ?? []).map((path) => ({
    ...path,
    instance: id as InstanceId,
    from: linkedNode(instance, path.from),
    to: { ...path.to, signal: (path.to.signal + bases.signal) as SignalId },
    condition: bitOf(instance, path.condition),
  }));
}

function linkChecks(instance: TreeInstance, nodes: NodeColumns): TimingCheck[] {
  return (instance.template.specified?.checks ?? []).map((check) => ({
    ...check,
    instance: instance.id as InstanceId,
    reference: linkEvent(instance, nodes, check.reference),
    data: check.data === null ? null : linkEvent(instance, nodes, check.data),
  }));
}

function linkEvent(instance: TreeInstance, nodes: NodeColumns, event: TemplateEvent): CheckEvent {
  const node = linkedNode(instance, event.node);
  return {
    bits: Array.from({ length: nodes.width[node] }, (_, bit) => ({ node, bit })),
    edges: event.edges,
    condition: bitOf(instance, event.condition),
    text: event.text,
  };
}

function bitOf(instance: TreeInstance, node: NodeId | null): Bit | null {
  return node === null ? null : { node: linkedNode(instance, node), bit: 0 };
}
