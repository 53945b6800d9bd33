// The arrays that are memories: those that some read or write reaches at an index that varies (definition 11), and those
// that are kept as one content. An array of which every index is a constant is a list of signals and no more.

import type { MemoryContents } from '../netlist/memory-contents';
import type { Memory, ProcessId, SignalId } from '../netlist/netlist';
import type { MemoryPortDraft, ModuleDraft } from './module-draft';
import type { ArrayEntity } from './scope';

export interface FinishedMemories {
  readonly memories: readonly Omit<Memory, 'instance'>[];
  /** By number of an array in the draft, and by number of the signal that holds a content. */
  readonly byArray: ReadonlyMap<number, { readonly memory: number; readonly contents: MemoryContents }>;
  readonly bySignal: ReadonlyMap<number, number>;
}

export function finishMemories(draft: ModuleDraft): FinishedMemories {
  const ports = portsByArray(draft);
  const memories: Omit<Memory, 'instance'>[] = [];
  const byArray = new Map<number, { memory: number; contents: MemoryContents }>();
  const bySignal = new Map<number, number>();
  for (const [number, { array, path }] of draft.arrays.entries()) {
    const own = ports.get(array) ?? [];
    const { words, memory } = array;
    if (words?.some(({ isPrivate }) => isPrivate) || (words !== null && own.length === 0)) continue;
    if (memory !== null) {
      byArray.set(number, { memory: memories.length, contents: memory.contents });
      bySignal.set(memory.signal.index, memories.length);
    }
    memories.push({
      id: memories.length,
      name: path,
      signals: (memory === null ? (words ?? []) : [memory.signal]).map(({ index }) => index as SignalId),
      contents: memory?.contents ?? null,
      words: array.dimensions.reduce((product, { size }) => product * size, 1),
      width: array.shape.width,
      place: draft.source.place(array.at),
      ports: own
        .sort((left, right) => left.at.start - right.at.start)
        .map(({ kind, process, at }) => ({ kind, process, place: draft.source.place(at) })),
    });
  }
  return { memories, byArray, bySignal };
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
