// Processes, for circuits by hand: one for each thing declared, or one for all that share a word.

import type { Process, ProcessId } from '../../server/src/netlist/netlist';
import type { Place } from '../../server/src/text/place';
import type { Scopes } from './circuit-places';

export interface Processes {
  readonly processes: readonly Process[];
  /** `declares`: the full name of what the process is for. */
  add(declares: string, word: string | undefined, what: Pick<Process, 'kind' | 'flavor'>, place: Place): ProcessId;
  /** Edges already listed are not listed again. */
  amend(id: ProcessId, more: Pick<Process, 'sensitivity' | 'assignments'>): void;
}

export function createProcesses(scopes: Scopes): Processes {
  const processes: Process[] = [];
  const byWord = new Map<string, ProcessId>();
  return {
    processes,
    add(declares, word, what, place) {
      const known = word === undefined ? undefined : byWord.get(word);
      if (known !== undefined) return known;
      const id = processes.length as ProcessId;
      if (word !== undefined) byWord.set(word, id);
      processes.push({
        id,
        instance: scopes.instanceOf(declares),
        ...what,
        place,
        sensitivity: [],
        implicitSensitivity: what.kind === 'combinational',
        reads: [],
        assignments: [],
      });
      return id;
    },
    amend(id, { sensitivity, assignments }) {
      const old = processes[id];
      const fresh = sensitivity.filter(({ node, edge }) =>
        old.sensitivity.every((known) => known.node !== node || known.edge !== edge),
      );
      processes[id] = {
        ...old,
        sensitivity: [...old.sensitivity, ...fresh],
        assignments: [...old.assignments, ...assignments],
      };
    },
  };
}
