// A primitive's table by edges as a clocked process: one input whose edge changes the state is the clock, rows of levels
// that fix the state whatever the clock does are asynchronous controls (IEEE 1364-2005 8.4 to 8.6). Edges that change
// nothing, and edges that only give x (as a notifier of timing checks does), say nothing of hardware.

import { caseOver, digitOf, hasEdge, isEdge, isUnknownRow, nameOf } from './primitive-statements';
import type { PrimitiveRow, PrimitiveText } from './primitive-text';
import type { Named, Sensitivity, Statement } from './tables';

interface Control {
  readonly input: number;
  readonly level: '0' | '1';
  readonly value: string;
  readonly row: PrimitiveRow;
}

/** Null where the rows name no clock, several, or both of its edges, or a control that no single level decides. */
export function clockedBody(primitive: PrimitiveText): Statement | null {
  const clock = clockOf(primitive);
  const controls = controlsOf(primitive);
  if (clock === null || controls === null || controls.some(({ input }) => input === clock.input)) return null;
  const { inputs, name: at, output } = primitive;
  const items: Sensitivity[] = [
    { at: inputs[clock.input], edge: clock.edge, expression: nameOf(inputs[clock.input]) },
    ...controls.map(({ input, level }) => ({
      at: inputs[input],
      edge: level === '1' ? ('posedge' as const) : ('negedge' as const),
      expression: nameOf(inputs[input]),
    })),
  ];
  const clocked = clockedCase(primitive, clock.input, controls);
  const body = [...controls]
    .reverse()
    .reduce((otherwise, control) => under(output, inputs, control, otherwise), clocked);
  return { kind: 'event', at, control: { at, implicit: false, items }, body };
}

/** An edge that changes the state to a known one; `* : 1 : 1` only keeps it from becoming unknown. */
function isActive(row: PrimitiveRow): boolean {
  return hasEdge(row) && (row.next === '0' || row.next === '1') && row.state !== row.next;
}

interface Clock {
  readonly input: number;
  readonly edge: 'posedge' | 'negedge';
}

function clockOf({ rows }: PrimitiveText): Clock | null {
  let clock: Clock | null = null;
  for (const row of rows.filter(isActive)) {
    const edges = row.inputs.flatMap((symbol, input) => (isEdge(symbol) ? [{ input, edge: edgeOf(symbol) }] : []));
    const [{ input, edge }] = edges;
    if (edges.length !== 1 || edge === null) return null;
    if (clock !== null && (clock.input !== input || clock.edge !== edge)) return null;
    clock = { input, edge };
  }
  return clock;
}

/** Null for an edge of either direction. */
function edgeOf(symbol: string): Clock['edge'] | null {
  if (symbol === 'r' || symbol === 'p' || symbol === '01' || symbol === '0x' || symbol === 'x1') return 'posedge';
  return symbol === 'f' || symbol === 'n' || symbol === '10' || symbol === '1x' || symbol === 'x0' ? 'negedge' : null;
}

/** Levels that an input has in every row in which the clock acts: a control is then inactive. */
function restingLevels({ inputs, rows }: PrimitiveText): readonly (string | null)[] {
  const active = rows.filter(isActive);
  return inputs.map((_, input) => {
    const levels = new Set(active.map((row) => row.inputs[input]));
    return levels.size === 1 ? [...levels][0] : null;
  });
}

/** In order of priority: the fewer inputs a row fixes, the higher. */
function controlsOf(primitive: PrimitiveText): Control[] | null {
  const { rows } = primitive;
  const resting = restingLevels(primitive);
  const levels = rows.filter((row) => !hasEdge(row) && !isUnknownRow(row) && (row.next === '0' || row.next === '1'));
  const fixed = ({ inputs }: PrimitiveRow) => inputs.filter((symbol) => symbol === '0' || symbol === '1').length;
  const controls: Control[] = [];
  for (const row of levels.sort((left, right) => fixed(left) - fixed(right))) {
    const own = row.inputs.flatMap((level, input) => {
      const isGiven =
        resting[input] === level || controls.some((control) => control.input === input && control.level !== level);
      return (level === '0' || level === '1') && !isGiven ? [{ input, level, value: row.next, row }] : [];
    });
    if (own.length !== 1) return null;
    const known = controls.find(({ input }) => input === own[0].input);
    if (known === undefined) controls.push(own[0] as Control);
    else if (known.level !== own[0].level || known.value !== own[0].value) return null;
  }
  return controls;
}

function under(output: Named, inputs: readonly Named[], control: Control, otherwise: Statement): Statement {
  const { at } = control.row;
  const input = nameOf(inputs[control.input]);
  const condition = control.level === '1' ? input : ({ kind: 'unary', at, operator: '!', operand: input } as const);
  const value = digitOf(control.value, at);
  const then = {
    kind: 'assign',
    at,
    blocking: false,
    target: nameOf(output),
    value,
    delay: null,
    event: null,
  } as const;
  return { kind: 'if', at, condition, then, else: otherwise };
}

/** What the active edge does, by the levels of the inputs that are neither clock nor control, and of the state. */
function clockedCase(
  { inputs, name: at, output, rows }: PrimitiveText,
  clock: number,
  controls: readonly Control[],
): Statement {
  const isHeld = (row: PrimitiveRow) => controls.some(({ input, level }) => row.inputs[input] === level);
  const active = rows.filter((row) => {
    const others = row.inputs.filter((_, input) => input !== clock);
    return isActiveEdge(rows, row.inputs[clock]) && !others.some(isEdge) && !isUnknownRow(row) && !isHeld(row);
  });
  const kept = inputs.flatMap((_, input) =>
    input === clock || controls.some((control) => control.input === input) ? [] : [input],
  );
  const needsState = active.some(({ state }) => state === '0' || state === '1');
  const selected = [...kept.map((input) => inputs[input]), ...(needsState ? [output] : [])];
  const cases = active.map((row) => ({
    ...row,
    inputs: [...kept.map((input) => row.inputs[input]), ...(needsState ? [row.state ?? '?'] : [])],
  }));
  if (selected.length === 0) return caseOver({ at, output, inputs: [output], blocking: false }, withAny(cases));
  return caseOver({ at, output, inputs: selected, blocking: false }, cases);
}

/** The same full edge as the rows that change the state: edges through x are left to those who simulate x. */
function isActiveEdge(rows: readonly PrimitiveRow[], symbol: string): boolean {
  const full = /^(r|p|01|f|n|10)$/;
  return (
    full.test(symbol) && rows.some((row) => isActive(row) && row.inputs.some((each) => edgeOf(each) === edgeOf(symbol)))
  );
}

function withAny(rows: readonly PrimitiveRow[]): PrimitiveRow[] {
  return rows.map((row) => ({ ...row, inputs: ['?'] }));
}
