// The memory that a process and all it started have held at most, as Linux tells it (proc(5), `VmHWM`: peak resident set).

import { readdirSync, readFileSync } from 'node:fs';

/** Bytes: the peaks of the living processes of the tree, added up. Throws where there is no such table of processes. */
export function peakOfTree(root: number): number {
  return treeOf(root).reduce((sum, process) => sum + peakOf(process), 0);
}

function treeOf(root: number): readonly number[] {
  const parents = readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .map((name) => ({ process: Number(name), parent: parentOf(Number(name)) }));
  const tree = [root];
  for (const member of tree) {
    for (const { parent, process } of parents) if (parent === member) tree.push(process);
  }
  return tree;
}

/** Null for a process that has ended meanwhile. */
function parentOf(process: number): number | null {
  return fieldOf(process, 'PPid');
}

function peakOf(process: number): number {
  return (fieldOf(process, 'VmHWM') ?? 0) * 1024;
}

function fieldOf(process: number, field: string): number | null {
  try {
    const status = readFileSync(`/proc/${process}/status`, 'utf8');
    const found = new RegExp(`^${field}:\\s*(\\d+)`, 'm').exec(status);
    return found === null ? null : Number(found[1]);
  } catch {
    return null;
  }
}
