// Functions with real arguments, variables or results, run on constants (IEEE 1364-2005 4.8, 10.4.5). Only constants may be
// real, so this is all that is followed of them: plain assignments, conditions and loops.

import type { Expression, Item, Named, Statement, SubroutineItem } from '../syntax/tables';
import { type ConstantValue, numberOf, toBits } from './constant-value';
import { variableShape } from './declared-shape';
import type { ExpressionContext } from './expression-context';
import { createScope, type ParameterEntity, type Scope, type SubroutineEntity } from './scope';

/** `contextAt`: how expressions read in a scope. Null where it could not be followed, or is unknown. */
export function runRealFunction(
  { item, outer, running }: SubroutineEntity,
  args: readonly ConstantValue[],
  contextAt: (scope: Scope) => ExpressionContext,
): ConstantValue | null {
  const run: Run = { values: new Map(), forms: new Map(), outer, contextAt, steps: { count: 0 } };
  const { name, result } = item;
  // One that calls itself is not followed.
  if (result === null || args.length !== item.ports.length || running.count > 0) return null;
  const declared = [
    { name, ...result },
    ...item.ports.map((port) => ({ name: port.declarator.name, variable: port.variable, type: port.type })),
    ...item.declarations.flatMap(variablesOf),
  ];
  for (const variable of declared) if (!declare(run, variable)) return null;
  for (const [index, { declarator }] of item.ports.entries()) assign(run, declarator.name.name, args[index]);
  running.count++;
  const isFollowed = follow(run, item.body);
  running.count--;
  return isFollowed ? (run.values.get(name.name) ?? null) : null;
}

type Declared = Pick<NonNullable<SubroutineItem['result']>, 'variable' | 'type'> & { readonly name: Named };

interface Run {
  readonly values: Map<string, ConstantValue>;
  /** What a value becomes when it is assigned. */
  readonly forms: Map<string, (value: ConstantValue) => ConstantValue>;
  readonly outer: Scope;
  readonly contextAt: (scope: Scope) => ExpressionContext;
  readonly steps: { count: number };
}

function variablesOf(item: Item): Declared[] {
  if (item.kind !== 'variable') return [];
  return item.declarators.map(({ name }) => ({ name, variable: item.variable, type: item.type }));
}

function declare(run: Run, { name, variable, type }: Declared): boolean {
  if (variable === 'real') {
    run.forms.set(name.name, (value) => ({ kind: 'real', value: numberOf(value) ?? Number.NaN }));
    return true;
  }
  const shape = variableShape(run.contextAt(run.outer), variable ?? 'reg', type, name);
  if (shape === null) return false;
  const { signed, width } = shape;
  run.forms.set(name.name, (value) => ({ kind: 'bits', bits: toBits(value, width), signed }));
  return true;
}

function assign(run: Run, name: string, value: ConstantValue): boolean {
  const form = run.forms.get(name);
  if (form === undefined) return false;
  const formed = form(value);
  if (formed.kind === 'real' && Number.isNaN(formed.value)) return false;
  run.values.set(name, formed);
  return true;
}

/** False where it cannot go on. */
function follow(run: Run, statement: Statement): boolean {
  run.steps.count++;
  if (run.steps.count > run.contextAt(run.outer).limits.unroll) return false;
  switch (statement.kind) {
    case 'block':
      return statement.declarations.length === 0 && statement.body.every((inner) => follow(run, inner));
    case 'assign':
      return followAssignment(run, statement);
    case 'if':
      return followIf(run, statement);
    case 'for': {
      const isStarted = statement.variable.kind === 'name' && !statement.declares;
      const start = isStarted ? worthOf(run, statement.start) : null;
      const isSet = start !== null && statement.variable.kind === 'name' && assign(run, statement.variable.name, start);
      return isSet && loop(run, statement.condition, [statement.body, statement.step]);
    }
    case 'while':
      return loop(run, statement.condition, [statement.body]);
    case 'null':
      return true;
    default:
      return false;
  }
}

function followAssignment(run: Run, { blocking, target, value, delay, event }: Extract<Statement, { kind: 'assign' }>) {
  if (target.kind !== 'name' || !blocking || delay !== null || event !== null) return false;
  const found = worthOf(run, value);
  return found !== null && assign(run, target.name, found);
}

function followIf(run: Run, { condition, then, else: otherwise }: Extract<Statement, { kind: 'if' }>): boolean {
  const test = truth(run, condition);
  if (test === null) return false;
  if (test) return follow(run, then);
  return otherwise === null || follow(run, otherwise);
}

function loop(run: Run, condition: Expression, bodies: readonly Statement[]): boolean {
  for (;;) {
    const test = truth(run, condition);
    if (test !== true) return test === false;
    if (!bodies.every((body) => follow(run, body))) return false;
  }
}

function truth(run: Run, condition: Expression): boolean | null {
  const value = worthOf(run, condition);
  const number = value === null ? null : numberOf(value);
  return number === null ? null : number !== 0;
}

/** In a scope of its own each time: what has been worked out in one is remembered there. */
function worthOf(run: Run, expression: Expression): ConstantValue | null {
  const scope = createScope(run.outer, null);
  for (const [name, value] of run.values) scope.names.set(name, asParameter(name, expression.at, value));
  return run.contextAt(scope).constant(expression);
}

function asParameter(name: string, at: Expression['at'], value: ConstantValue): ParameterEntity {
  const width = value.kind === 'bits' ? value.bits.width : 32;
  const range = () => ({ msb: width - 1, lsb: 0 });
  return { kind: 'parameter', name, at, local: true, range, value: () => value, lost: () => null };
}
