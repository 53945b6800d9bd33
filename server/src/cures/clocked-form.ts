// A clocked process of the form that IEEE 1364.1-2002 5.2.2 gives a flip-flop: the branches of its asynchronous controls,
// then what happens at the clock. Cures put a condition before the latter, or read the next value of a register off it.

import type { Register } from '../netlist/netlist';
import type { Expression, Sensitivity, Statement } from '../syntax/tables';
import { statementsIn } from '../syntax/statements-in';
import type { CureContext } from './cure';
import { inserting, replacing, type UnitEdit } from './edits';
import { type ProcessItem, processAt } from './text';

export interface ClockedForm {
  readonly process: ProcessItem;
  readonly unit: number;
  /** The clock in the list. */
  readonly clock: Sensitivity;
  /** In order of priority, one for each other edge in the list. */
  readonly resets: readonly { readonly condition: Expression; readonly then: Statement }[];
  /** What happens at the clock. */
  readonly body: Statement;
}

/** Null where the process has another form, or stands in a generate block. */
export function clockedForm({ reading }: CureContext, { clockPlace }: Register): ClockedForm | null {
  const process = processAt(reading, clockPlace);
  if (process?.body.kind !== 'event' || process.body.body === null) return null;
  const { items } = process.body.control;
  const clock = items.find(({ at }) => at.start <= clockPlace.start && clockPlace.end <= at.end);
  if (clock === undefined || clock.edge === null || clock.edge === 'edge') return null;
  const resets: ClockedForm['resets'][number][] = [];
  let body: Statement = process.body.body;
  for (let left = items.length - 1; left > 0; left--) {
    body = onlyStatement(body);
    if (body.kind !== 'if' || body.else === null) return null;
    resets.push({ condition: body.condition, then: body.then });
    body = body.else;
  }
  return body.kind === 'null' ? null : { process, unit: clockPlace.unit, clock, resets, body };
}

function onlyStatement(statement: Statement): Statement {
  return statement.kind === 'block' && statement.declarations.length === 0 && statement.body.length === 1
    ? onlyStatement(statement.body[0])
    : statement;
}

/** The process follows another edge, and only where the condition holds. */
export function clockedFrom({ body, clock, unit }: ClockedForm, edge: string, condition: string): readonly UnitEdit[] {
  return [
    replacing({ unit, start: clock.at.start, end: clock.at.end }, edge),
    inserting(unit, body.at.start, `if (${condition}) `),
  ];
}

/** The forms of the processes of these registers, each once; null where one of them has none or stands in another instance. */
export function formsOf(context: CureContext, registers: readonly Register[]): readonly ClockedForm[] | null {
  const forms = new Map<number, ClockedForm>();
  for (const register of registers) {
    if (register.instance !== registers[0].instance) return null;
    const form = clockedForm(context, register);
    if (form === null) return null;
    forms.set(form.process.at.start, form);
  }
  return [...forms.values()];
}

/** Registers that a bit clocks. */
export function registersOn({ facts: { netlist, network } }: CureContext, clock: number): readonly Register[] {
  return netlist.registers.filter(({ id }) => network.registers[id].clock === clock);
}

export type Assignment = Extract<Statement, { kind: 'assign' }>;

export function assignmentsIn(body: Statement): readonly Assignment[] {
  const found: Assignment[] = [];
  const pending = [body];
  for (let statement = pending.pop(); statement !== undefined; statement = pending.pop()) {
    if (statement.kind === 'assign') found.push(statement);
    pending.push(...statementsIn(statement).reverse());
  }
  return found;
}
