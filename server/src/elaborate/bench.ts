// What a test bench does to the module it tests: its processes are run over time as far as they depend on the bench alone,
// and what they put on each input port is the port's wave. Nothing of the bench becomes part of the netlist.

import type { Bench, BenchPort, BenchWave } from '../netlist/bench';
import { type Bits, equalBits } from '../netlist/four-state';
import type { Expression } from '../syntax/tables';
import type { Place } from '../text/place';
import { runBench } from './bench-run';
import type { BenchStore } from './bench-store';
import { createComplaintLog } from './complaint-log';
import { connectedExpressions } from './connection-lists';
import { contextIn } from './constants';
import { interfaceNamed, interfacesIn } from './interface-references';
import { membersOf } from './interface-scope';
import { lowerTo } from './lower';
import type { ChildDraft, ModuleDraft } from './module-draft';
import { type ModuleInput, readNames } from './read-module';
import type { PortMember, Template } from './template';

type Input = Omit<ModuleInput, 'log' | 'overrides' | 'interfaces'>;

type Tested = Pick<Template, 'moduleName' | 'ports' | 'signals'>;

/** Null where the bench instantiates the module in no branch that is built. */
export function* readBench(input: Input, tested: Tested): Generator<void, Bench | null> {
  // What is wrong in the bench's text is said where the bench itself is read.
  const draft = yield* readNames({ ...input, log: createComplaintLog(), overrides: new Map(), interfaces: new Map() });
  const child = draft.children.find(({ item }) => item.module.name === tested.moduleName);
  if (child === undefined) return null;
  const probes = probesOf(draft, child, tested);
  const cutAt = yield* runBench(draft, {
    settled(at, values) {
      for (const probe of probes) probe.look(at, values);
    },
  });
  return {
    name: draft.moduleName,
    place: draft.source.place(child.at),
    ports: probes.map((probe) => probe.port(cutAt)),
  };
}

interface Probe {
  look(at: number, values: BenchStore): void;
  /** `cutAt`: when the run was cut, ps; null: it was not. */
  port(cutAt: number | null): BenchPort;
}

function probesOf(draft: ModuleDraft, child: ChildDraft, { ports, signals }: Tested): Probe[] {
  const connected = connectedExpressions(draft, child, ports);
  return ports.flatMap(({ direction, members, name, width }, index): Probe[] => {
    const expression = connected[index];
    if (name === null || direction !== 'input' || expression === null) return [];
    if (members !== undefined) return memberProbes(draft, child, expression, { members, signals });
    const place = draft.source.place(expression.at);
    const context = contextIn(draft, child.scope);
    return [createProbe({ name, place }, ({ store }) => lowerTo({ context, reader: store.reader }, expression, width))];
  });
}

/** Of an interface, one for each signal that the tested module takes in. */
function memberProbes(
  draft: ModuleDraft,
  { scope }: ChildDraft,
  expression: Expression,
  { members, signals }: { readonly members: readonly PortMember[]; readonly signals: Tested['signals'] },
): Probe[] {
  const entity = interfaceNamed(contextIn(draft, scope), expression);
  if (entity === null || typeof entity === 'number') return [];
  const connected = interfacesIn(entity).map((each) => membersOf(each.scope));
  const place = draft.source.place(expression.at);
  return members.flatMap(({ direction, element, path, signal }): Probe[] => {
    const own = connected[element]?.find((member) => member.path === path)?.signal;
    if (direction !== 'input' || own === undefined) return [];
    const name = signals[signal].path;
    return [createProbe({ name, place }, ({ store }) => store.reader.read(own, 0, own.shape.width, expression.at))];
  });
}

/** Changes kept of one port: more than a preview shows. */
const mostChanges = 10_000;

function createProbe(
  { name, place }: { readonly name: string; readonly place: Place },
  read: (values: BenchStore) => Bits,
): Probe {
  let start: Bits | null = null;
  let last: Bits | null = null;
  let isLost = false;
  const changes: BenchWave['changes'][number][] = [];
  return {
    look(at, values) {
      if (isLost || changes.length > mostChanges) return;
      values.hasReadOutside();
      const value = read(values);
      isLost = values.hasReadOutside();
      start ??= value;
      if (last !== null && !equalBits(last, value)) changes.push({ at, value });
      last = value;
    },
    port(cutAt) {
      if (isLost || start === null) return { name, place, wave: null };
      const kept = changes.slice(0, mostChanges);
      // What has rested for half of a long run is at rest: its clock alone kept the bench going.
      const isAtRest = cutAt === null || (changes[changes.length - 1]?.at ?? 0) < cutAt / 2;
      return { name, place, wave: { start, changes: kept, isWhole: isAtRest && kept.length === changes.length } };
    },
  };
}
