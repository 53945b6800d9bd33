// Which function or task a name means where it is called, and whether the call fits it (IEEE 1364-2005 10.2, 10.4).

import type { Expression, Statement, SubroutineItem } from '../syntax/tables';
import type { ExpressionContext } from './expression-context';
import type { LocalSignal } from './local-signal';
import { entityOf, sayAmbiguous } from './references';
import { type Frame, lookUp, type SubroutineEntity } from './scope';

export type FoundFunction =
  | {
      readonly kind: 'function';
      readonly subroutine: SubroutineEntity;
      readonly frame: Frame;
      readonly result: LocalSignal;
    }
  | { readonly kind: 'none'; readonly complaint: number };

export type FoundTask =
  | { readonly kind: 'task'; readonly subroutine: SubroutineEntity; readonly frame: Frame }
  | { readonly kind: 'none'; readonly complaint: number };

type FunctionCallExpression = Extract<Expression, { kind: 'call' }>;
type TaskCall = Extract<Statement, { kind: 'call' }>;

export function functionOf(context: ExpressionContext, expression: FunctionCallExpression): FoundFunction {
  const found = find(context, expression, 'function');
  if (found.kind === 'none') return found;
  const { result } = found.frame;
  return result === null ? { kind: 'none', complaint: -1 } : { ...found, kind: 'function', result };
}

export function taskOf(context: ExpressionContext, statement: TaskCall): FoundTask {
  const found = find(context, statement, 'task');
  return found.kind === 'none' ? found : { ...found, kind: 'task' };
}

/** For a function's width and sign: where a name stands for a function at all. */
export function functionResult(context: ExpressionContext, call: FunctionCallExpression): LocalSignal | null {
  const entity = calledEntity(context, call);
  return typeof entity === 'object' && entity?.kind === 'subroutine' ? (entity.frame()?.result ?? null) : null;
}

/** The function that a call names, whether or not its frame can be told. */
export function functionNamed(context: ExpressionContext, call: FunctionCallExpression): SubroutineEntity | null {
  const entity = calledEntity(context, call);
  const isFunction = typeof entity === 'object' && entity?.kind === 'subroutine' && entity.item.result !== null;
  return isFunction ? entity : null;
}

/** Then its values are no bits: it is run on constants alone. */
export function usesReals({ declarations, ports, result }: SubroutineItem): boolean {
  return (
    result?.variable === 'real' ||
    ports.some(({ variable }) => variable === 'real') ||
    declarations.some((item) => item.kind === 'variable' && item.variable === 'real')
  );
}

/** Null: not declared. A number: nothing that can be called, by that complaint. */
function calledEntity(context: ExpressionContext, { name, callee }: FunctionCallExpression | TaskCall) {
  if (callee === undefined) return lookUp(context.scope, name.name);
  const found = entityOf(context, callee);
  if (typeof found === 'number') return found;
  const { entity, inside, path } = found;
  if (path.length === 0 || entity.kind !== 'subroutine' || inside.unit === undefined) return entity;
  return context.subroutineBelow(entity, path, inside.unit);
}

type Found =
  | { readonly kind: 'found'; readonly subroutine: SubroutineEntity; readonly frame: Frame }
  | { readonly kind: 'none'; readonly complaint: number };

function find(context: ExpressionContext, call: FunctionCallExpression | TaskCall, what: 'function' | 'task'): Found {
  const { log, source } = context;
  const { name } = call.name;
  const place = source.place(call.name);
  const entity = calledEntity(context, call);
  if (typeof entity === 'number') return { kind: 'none', complaint: entity };
  if (entity === null) return { kind: 'none', complaint: log.add('undeclared-name', { name }, place) };
  if (entity.kind === 'hole') return { kind: 'none', complaint: entity.complaint };
  if (entity.kind === 'ambiguous')
    return { kind: 'none', complaint: sayAmbiguous(context, call.name, entity.packages) };
  // Inside a function its name is its result, too.
  if (entity.kind === 'signal' && entity.isPrivate) return findOutside(context, call, what);
  if (entity.kind !== 'subroutine' || (entity.item.result === null) !== (what === 'task')) {
    return { kind: 'none', complaint: log.add('not-a-subroutine', { name, what }, place) };
  }
  const frame = entity.frame();
  if (frame === null) return { kind: 'none', complaint: -1 };
  const [given, ports] = [call.args.length, frame.ports.length];
  if (given === ports) return { kind: 'found', subroutine: entity, frame };
  return { kind: 'none', complaint: log.add('argument-count', { name, given, ports }, source.place(call.at)) };
}

/** From the scope around the one that holds the name. */
function findOutside(
  context: ExpressionContext,
  call: FunctionCallExpression | TaskCall,
  what: 'function' | 'task',
): Found {
  let { scope } = context;
  while (!scope.names.has(call.name.name) && scope.parent !== null) scope = scope.parent;
  if (scope.parent === null) return { kind: 'none', complaint: -1 };
  return find({ ...context, scope: scope.parent }, call, what);
}
