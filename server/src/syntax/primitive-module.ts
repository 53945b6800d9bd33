// A user-defined primitive as the module that it describes (IEEE 1364-2005 8.2 to 8.6): a combinational table is a case
// over its inputs, one by level a case that leaves some of them alone, one by edge a clocked process. Rows that only say
// what x gives are left out: hardware has no x to compare with. Null for a table of any other shape.

import { clockedBody } from './primitive-clocked';
import type { PrimitiveText } from './primitive-text';
import { caseOver, hasEdge, isUnknownRow } from './primitive-statements';
import type { Directives } from './unit-reading';
import type { At, Item, ModuleTable, Named, PortTable, Statement } from './tables';
import { plainType } from './types';

export function primitiveModule(primitive: PrimitiveText, inForce: Directives): ModuleTable | null {
  const body = bodyOf(primitive);
  if (body === null) return null;
  const { name, output, inputs, start } = primitive;
  const at = name;
  const process: Item = { kind: 'process', at, flavor: 'always', body };
  return {
    kind: 'module',
    at,
    name,
    parameters: [],
    ports: [portOf(output, 'output'), ...inputs.map((input) => portOf(input, 'input'))],
    slots: [],
    ansi: true,
    headerWhole: true,
    items: start === null ? [process] : [startOf(output, start), process],
    ...inForce,
  };
}

function portOf(name: Named, direction: 'input' | 'output'): PortTable {
  const variable = direction === 'output' ? 'reg' : null;
  const declarator = { at: name, name, dimensions: [], value: null };
  return { at: name, direction, net: direction === 'input' ? 'wire' : null, variable, type: plainType, declarator };
}

function startOf(output: Named, { digit, at }: NonNullable<PrimitiveText['start']>): Item {
  const target = { kind: 'name', at: output, name: output.name } as const;
  const value = { kind: 'number', at, size: 1, signed: false, base: 'b', digits: digit } as const;
  const body: Statement = { kind: 'assign', at, blocking: true, target, value, delay: null, event: null };
  return { kind: 'process', at, flavor: 'initial', body };
}

function bodyOf(primitive: PrimitiveText): Statement | null {
  if (primitive.rows.some(hasEdge)) return clockedBody(primitive);
  const { inputs, isSequential, name: at, output } = primitive;
  // A table by level whose rows ask for the state is a loop of logic, not a latch.
  if (isSequential && primitive.rows.some(({ state }) => state !== '?')) return null;
  const rows = primitive.rows.filter((row) => !isUnknownRow(row));
  const statement = caseOver({ at, output, inputs, blocking: true }, rows);
  return onLevels(at, statement);
}

function onLevels(at: At, body: Statement): Statement {
  return { kind: 'event', at, control: { at, implicit: true, items: [] }, body };
}
