// Timing checks of a specify block (IEEE 1364-2005 15): which argument is which event, limits as triples, and nets that a
// check drives delayed (15.5.1). A notifier needs nothing here: what a violation leaves in a register is unknown anyway.

import type { CheckKind, DelayTriple } from '../netlist/netlist';
import type { CheckArgument, Expression, SpecifyPart } from '../syntax/tables';
import { delayedNets } from './delayed-nets';
import type { CheckEventDraft, ModuleDraft } from './module-draft';
import type { Scope } from './scope';
import { conditionOf, lowered, sayUnread } from './specify-terms';
import { specifiedTriple } from './specify-times';

type Check = Extract<SpecifyPart, { kind: 'check' }>;

/** Positions of the arguments; `data` null: the reference event alone. */
interface Form {
  readonly kind: CheckKind;
  readonly reference: number;
  readonly data: number | null;
  readonly limits: readonly number[];
}

const forms: ReadonlyMap<string, Form> = new Map([
  ['setup', { kind: 'setup', reference: 1, data: 0, limits: [2] }],
  ['hold', { kind: 'hold', reference: 0, data: 1, limits: [2] }],
  ['setuphold', { kind: 'setuphold', reference: 0, data: 1, limits: [2, 3] }],
  ['recovery', { kind: 'recovery', reference: 0, data: 1, limits: [2] }],
  ['removal', { kind: 'removal', reference: 0, data: 1, limits: [2] }],
  ['recrem', { kind: 'recrem', reference: 0, data: 1, limits: [2, 3] }],
  ['skew', { kind: 'skew', reference: 0, data: 1, limits: [2] }],
  ['width', { kind: 'width', reference: 0, data: null, limits: [1, 2] }],
  ['period', { kind: 'period', reference: 0, data: null, limits: [1] }],
  ['nochange', { kind: 'nochange', reference: 0, data: 1, limits: [2, 3] }],
]);

export function readCheck(draft: ModuleDraft, scope: Scope, check: Check): void {
  const form = forms.get(check.check);
  const reference = form === undefined ? null : (check.args[form.reference] ?? null);
  const data = form === undefined || form.data === null ? null : (check.args[form.data] ?? null);
  if (form === undefined || reference === null || (form.data !== null && data === null)) {
    sayUnread(draft, check.at, `timing check $${check.check}`);
    return;
  }
  const limits = form.limits.map((position) => limitOf(draft, scope, check.args[position] ?? null));
  if (limits.includes(null)) return;
  const triples = limits.filter((limit) => limit !== null);
  if (form.kind === 'setuphold' || form.kind === 'recrem') delayedNets(draft, scope, check, triples);
  draft.specified.checks.push({
    kind: form.kind,
    reference: eventOf(draft, scope, reference),
    data: data === null ? null : eventOf(draft, scope, data),
    limits: triples,
    at: check.at,
  });
}

/** One that is left out is 0. */
function limitOf(draft: ModuleDraft, scope: Scope, argument: CheckArgument | null): DelayTriple | null {
  if (argument === null) return { min: 0, typ: 0, max: 0 };
  return specifiedTriple(draft, scope, argument.expression);
}

function eventOf(draft: ModuleDraft, scope: Scope, argument: CheckArgument): CheckEventDraft {
  const { condition, edge, edges, expression } = argument;
  return {
    node: lowered(draft, scope, withoutTriple(expression)),
    edges: edges.length > 0 ? edges : edgesOf(edge),
    condition: condition === null ? null : conditionOf(draft, scope, condition),
    at: expression.at,
  };
}

function withoutTriple(expression: Expression): Expression {
  return expression.kind === 'mintypmax' ? expression.typ : expression;
}

/** Changes that posedge and negedge stand for (15.4). */
function edgesOf(edge: CheckArgument['edge']): readonly string[] {
  if (edge === 'posedge') return ['01', '0x', 'x1'];
  return edge === 'negedge' ? ['10', 'x0', '1x'] : [];
}
