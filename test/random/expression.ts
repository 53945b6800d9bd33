// Random well-formed expressions: as tables of our own here, printed as Verilog. Imports nothing of the tool.

import fc from 'fast-check';

export type Expression =
  /** Sized literal; digits 0 1 x z, most significant first, exactly as wide as the literal. */
  | { readonly kind: 'literal'; readonly digits: string; readonly signed: boolean }
  | { readonly kind: 'unary'; readonly operator: UnaryOperator; readonly operand: Expression }
  | {
      readonly kind: 'binary';
      readonly operator: BinaryOperator;
      readonly left: Expression;
      readonly right: Expression;
    }
  | {
      readonly kind: 'conditional';
      readonly condition: Expression;
      readonly then: Expression;
      readonly else: Expression;
    }
  | { readonly kind: 'concat'; readonly parts: readonly Expression[] }
  | { readonly kind: 'replicate'; readonly count: number; readonly part: Expression }
  | { readonly kind: 'cast'; readonly signed: boolean; readonly operand: Expression };

export const unaryOperators = ['+', '-', '!', '~', '&', '~&', '|', '~|', '^', '~^'] as const;
export const binaryOperators = [
  ...['+', '-', '*', '/', '%', '==', '!=', '===', '!==', '<', '<=', '>', '>='],
  ...['&&', '||', '&', '|', '^', '~^', '<<', '>>', '<<<', '>>>', '**'],
] as const;
export type UnaryOperator = (typeof unaryOperators)[number];
export type BinaryOperator = string;

export interface Shape {
  /** Digits a literal may hold: '01' or '01xz'. */
  readonly digits: string;
  readonly maxWidth: number;
  readonly operators: readonly string[];
}

export function expressions(shape: Shape): fc.Arbitrary<Expression> {
  const literal = fc.record({
    kind: fc.constant('literal' as const),
    digits: fc.string({ unit: fc.constantFrom(...shape.digits), minLength: 1, maxLength: shape.maxWidth }),
    signed: fc.boolean(),
  });
  const { expression } = fc.letrec<{ expression: Expression }>((tie) => ({
    expression: fc.oneof(
      { maxDepth: 4, withCrossShrink: true },
      literal,
      fc.record({
        kind: fc.constant('unary' as const),
        operator: fc.constantFrom(...unaryOperators),
        operand: tie('expression'),
      }),
      fc.record({
        kind: fc.constant('binary' as const),
        operator: fc.constantFrom(...shape.operators),
        left: tie('expression'),
        right: tie('expression'),
      }),
      fc.record({
        kind: fc.constant('conditional' as const),
        condition: tie('expression'),
        then: tie('expression'),
        else: tie('expression'),
      }),
      fc.record({
        kind: fc.constant('concat' as const),
        parts: fc.array(tie('expression'), { minLength: 1, maxLength: 3 }),
      }),
      fc.record({
        kind: fc.constant('replicate' as const),
        count: fc.integer({ min: 1, max: 3 }),
        part: tie('expression'),
      }),
      fc.record({ kind: fc.constant('cast' as const), signed: fc.boolean(), operand: tie('expression') }),
    ),
  }));
  return expression;
}

/** Verilog text, every operand in parentheses; `literal` may print a literal as something else, such as a net. */
export function print(expression: Expression, literal: (e: Expression & { kind: 'literal' }) => string): string {
  const inner = (operand: Expression) => print(operand, literal);
  switch (expression.kind) {
    case 'literal':
      return literal(expression);
    case 'unary':
      return `${expression.operator}(${inner(expression.operand)})`;
    case 'binary':
      return `(${inner(expression.left)}) ${expression.operator} (${inner(expression.right)})`;
    case 'conditional':
      return `(${inner(expression.condition)}) ? (${inner(expression.then)}) : (${inner(expression.else)})`;
    case 'concat':
      return `{${expression.parts.map(inner).join(', ')}}`;
    case 'replicate':
      return `{${expression.count}{${inner(expression.part)}}}`;
    case 'cast':
      return `$${expression.signed ? 'signed' : 'unsigned'}(${inner(expression.operand)})`;
  }
}

export function literalText(literal: Expression & { kind: 'literal' }): string {
  return `${literal.digits.length}'${literal.signed ? 's' : ''}b${literal.digits}`;
}
