// One step down a tree of statements, for walks that keep a list of what is still to be looked at.

import type { Statement } from './tables';

/** Statements directly inside one, in source order. */
export function statementsIn(statement: Statement): Statement[] {
  switch (statement.kind) {
    case 'block':
      return [...statement.body];
    case 'if':
      return statement.else === null ? [statement.then] : [statement.then, statement.else];
    case 'case':
      return statement.items.map((item) => item.body);
    case 'for':
      return [statement.step, statement.body];
    case 'while':
    case 'repeat':
    case 'forever':
      return [statement.body];
    case 'delay':
    case 'event':
    case 'wait':
      return statement.body === null ? [] : [statement.body];
    default:
      return [];
  }
}
