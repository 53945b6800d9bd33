// The arrays that are memories: those that some read or write reaches at an index that varies (definition 11), and those
// too large to be followed. An array of which every index is a constant is a list of signals and no more.

import type { Memory, ProcessId, SignalId } from '../netlist/netlist';
import type { MemoryPortDraft, ModuleDraft } from './module-draft';
import type { ArrayEntity } from './scope';

export function finishMemories(draft: ModuleDraft): Omit<Memory, 'instance'>[] {
  const ports = portsByArray(draft);
  const memories: Omit<Memory, 'instance'>[] = [];
  for (const { array, path } of draft.arrays) {
    const own = ports.get(array) ?? [];
    if (array.words?.some(({ isPrivate }) => isPrivate) || (array.words !== null && own.length === 0)) continue;
    memories.push({
      id: memories.length,
      name: path,
      signals: (array.words ?? []).map(({ index }) => index as SignalId),
      words: array.dimensions.reduce((product, { size }) => product * size, 1),
      width: array.shape.width,
      place: draft.source.place(array.at),
      ports: own
        .sort((left, right) => left.at.start - right.at.start)
        .map(({ kind, process, at }) => ({ kind, process, place: draft.source.place(at) })),
    });
  }
  return memories;
}

type Port = MemoryPortDraft & { readonly process: ProcessId | null };

function portsByArray({ processes, otherReads }: ModuleDraft): ReadonlyMap<ArrayEntity, Port[]> {
  const byArray = new Map<ArrayEntity, Port[]>();
  const add = (port: Port) => {
    const known = byArray.get(port.array);
    if (known === undefined) byArray.set(port.array, [port]);
    else known.push(port);
  };
  for (const { index, ports } of processes) for (const port of ports) add({ ...port, process: index as ProcessId });
  for (const port of otherReads.ports) add({ ...port, process: null });
  return byArray;
}
