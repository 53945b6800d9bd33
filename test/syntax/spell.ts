// Writes tables as short text, so that a test can say in one line what it expects. Every operation gets
// parentheses: the text shows how the source was taken, not how it was written.

import type {
  CheckArgument,
  CompositeTable,
  Connection,
  DataTypeTable,
  Declarator,
  DelayTable,
  EnumTable,
  EventControl,
  Expression,
  GenerateBlock,
  InstanceTable,
  Item,
  ModuleTable,
  PortTable,
  Range,
  SpecifyPart,
  Statement,
  SubroutineItem,
  TypeTable,
} from '../../server/src/syntax/tables';

export function spell(expression: Expression): string {
  switch (expression.kind) {
    case 'number':
      return `${expression.size ?? ''}${spellBase(expression)}${expression.digits}`;
    case 'fill':
      return `'${expression.digit}`;
    case 'real':
      return `real ${expression.value}`;
    case 'time':
      return `${expression.value}${expression.unit}`;
    case 'string':
      return JSON.stringify(expression.text);
    case 'name':
      return expression.name;
    case 'member':
      return `${spell(expression.base)}.${expression.name.name}`;
    case 'scoped':
      return `${expression.scope.name}::${expression.name.name}`;
    case 'index':
      return `${spell(expression.base)}[${spell(expression.index)}]`;
    case 'range':
      return `${spell(expression.base)}[${spell(expression.left)}${rangeMarks[expression.mode]}${spell(expression.right)}]`;
    case 'unary':
      return `(${expression.operator}${spell(expression.operand)})`;
    case 'binary':
      return `(${spell(expression.left)} ${expression.operator} ${spell(expression.right)})`;
    case 'conditional':
      return `(${spell(expression.condition)} ? ${spell(expression.then)} : ${spell(expression.else)})`;
    case 'concat':
      return `{${expression.parts.map(spell).join(', ')}}`;
    case 'replicate':
      return `{${spell(expression.count)}{${expression.parts.map(spell).join(', ')}}}`;
    case 'pattern':
      return spellPattern(expression);
    case 'stream': {
      const size = expression.size === null ? '' : spell(expression.size);
      return `{${expression.reversed ? '<<' : '>>'}${size}{${expression.parts.map(spell).join(', ')}}}`;
    }
    case 'call':
      return `${expression.name.name}(${expression.args.map(spell).join(', ')})`;
    case 'mintypmax':
      return `${spell(expression.min)}:${spell(expression.typ)}:${spell(expression.max)}`;
    case 'hole':
      return '?';
  }
}

function spellPattern({ count, entries, type }: Extract<Expression, { kind: 'pattern' }>): string {
  const parts = entries.map(({ key, value }) => {
    const name = key === null ? '' : `${key === 'default' ? key : spell(key)}: `;
    return `${name}${spell(value)}`;
  });
  const inner = parts.join(', ');
  return `${type === null ? '' : spell(type)}'{${count === null ? inner : `${spell(count)}{${inner}}`}}`;
}

export function spellStatement(statement: Statement): string {
  switch (statement.kind) {
    case 'block': {
      const label = statement.label === null ? '' : ` : ${statement.label.name}`;
      const words = statement.parallel ? ['fork', 'join'] : ['begin', 'end'];
      const parts = [...statement.declarations.map(spellItem), ...statement.body.map(spellStatement)];
      return [`${words[0]}${label}`, ...parts, words[1]].join(' ');
    }
    case 'assign': {
      const timing = `${spellDelay(statement.delay)}${statement.event === null ? '' : `${spellEvent(statement.event)} `}`;
      return `${spell(statement.target)} ${statement.blocking ? '=' : '<='} ${timing}${spell(statement.value)};`;
    }
    case 'if':
      return `if ${spell(statement.condition)} ${spellStatement(statement.then)}${statement.else === null ? '' : ` else ${spellStatement(statement.else)}`}`;
    case 'case': {
      const items = statement.items.map(
        ({ labels, isDefault, body }) =>
          `${isDefault ? 'default' : labels.map(spell).join(', ')}: ${spellStatement(body)}`,
      );
      const qualifier = statement.qualifier === null ? '' : `${statement.qualifier} `;
      return `${qualifier}${statement.match} ${spell(statement.selector)} ${items.join(' ')} endcase`;
    }
    case 'for': {
      const head = `${statement.declares ? 'own ' : ''}${spell(statement.variable)} = ${spell(statement.start)}`;
      return `for (${head}; ${spell(statement.condition)}; ${spellStatement(statement.step)}) ${spellStatement(statement.body)}`;
    }
    case 'while':
      return `while ${spell(statement.condition)} ${spellStatement(statement.body)}`;
    case 'repeat':
      return `repeat ${spell(statement.count)} ${spellStatement(statement.body)}`;
    case 'forever':
      return `forever ${spellStatement(statement.body)}`;
    case 'delay':
      return `${spellDelay(statement.delay)}${spellBody(statement.body)}`;
    case 'event':
      return `${spellEvent(statement.control)} ${spellBody(statement.body)}`;
    case 'wait':
      return `wait ${spell(statement.condition)} ${spellBody(statement.body)}`;
    case 'call':
      return `${statement.name.name}(${statement.args.map(spell).join(', ')});`;
    case 'disable':
      return `disable ${statement.label.name};`;
    case 'null':
      return ';';
    case 'hole':
      return `?[${statement.names.map((name) => name.name).join(' ')}]`;
  }
}

export function spellItem(item: Item): string {
  switch (item.kind) {
    case 'net':
      return `${item.net}${spellType(item.type)} ${spellDelay(item.delay)}${spellDeclarators(item.declarators)};`;
    case 'variable':
      return `${item.variable}${spellType(item.type)} ${spellDeclarators(item.declarators)};`;
    case 'parameter': {
      const variable = item.variable === null ? '' : ` ${item.variable}`;
      return `${item.local ? 'localparam' : 'parameter'}${variable}${spellType(item.type)} ${spellDeclarators(item.declarators)};`;
    }
    case 'port':
      return `${spellPort(item.port)};`;
    case 'assign':
      return `assign ${spellDelay(item.delay)}${spell(item.target)} = ${spell(item.value)};`;
    case 'gate':
      return `${item.gate} ${spellDelay(item.delay)}${item.instances.map(spellInstance).join(', ')};`;
    case 'process':
      return `${item.flavor} ${spellStatement(item.body)}`;
    case 'instances': {
      const parameters = item.parameters.length === 0 ? '' : `#(${item.parameters.map(spellConnection).join(', ')}) `;
      return `${item.module.name} ${parameters}${item.instances.map(spellInstance).join(', ')};`;
    }
    case 'generate-if': {
      const otherwise = item.else === null ? '' : ` else ${spellBlock(item.else)}`;
      return `if ${spell(item.condition)} ${item.then === null ? '' : spellBlock(item.then)}${otherwise}`;
    }
    case 'generate-for': {
      const head = `${item.variable.name} = ${spell(item.start)}; ${spell(item.condition)}; ${spellStatement(item.step)}`;
      return `for (${head}) ${spellBlock(item.body)}`;
    }
    case 'generate-case': {
      const items = item.items.map(
        ({ labels, isDefault, body }) => `${isDefault ? 'default' : labels.map(spell).join(', ')}: ${spellBlock(body)}`,
      );
      return `case ${spell(item.selector)} ${items.join(' ')} endcase`;
    }
    case 'generate-block':
      return spellBlock(item.block);
    case 'defparam':
      return `defparam ${spell(item.target)} = ${spell(item.value)};`;
    case 'subroutine':
      return spellSubroutine(item);
    case 'import':
    case 'export':
      return `${item.kind} ${item.from?.name ?? '*'}::${item.name?.name ?? '*'};`;
    case 'modport':
      return `modport ${item.name.name} (${item.members.map(({ role, name }) => `${role} ${name.name}`).join(', ')});`;
    case 'typedef':
      return `typedef ${item.type === null ? '?' : spellDataType(item.type)} ${item.name.name};`;
    case 'type-parameter': {
      const word = item.local ? 'localparam' : 'parameter';
      return `${word} type ${item.name.name}${item.type === null ? '' : ` = ${spellDataType(item.type)}`};`;
    }
    case 'specify':
      return `specify ${item.parts.map(spellSpecified).join('; ')}; endspecify`;
    case 'hole':
      return `?[${item.names.map((name) => name.name).join(' ')}]`;
  }
}

function spellDataType(type: DataTypeTable): string {
  if (type.kind === 'plain') {
    const dimensions = (type.dimensions ?? []).map((range) => ` ${spellRange(range)}`).join('');
    return `${type.variable ?? ''}${spellType(type.type)}${dimensions}`.trim();
  }
  return spellEnum(type);
}

function spellEnum(type: EnumTable): string {
  return `enum {${type.members.map(({ name, value }) => `${name.name}${value === null ? '' : ` = ${spell(value)}`}`).join(', ')}}`;
}

function spellSubroutine({ automatic, result, name, ports, declarations, body }: SubroutineItem): string {
  const what = result === null ? 'task' : 'function';
  const type =
    result === null ? '' : `${result.variable === null ? '' : ` ${result.variable}`}${spellType(result.type)}`;
  const words = `${what}${automatic ? ' automatic' : ''}${type} ${name.name}(${ports.map(spellPort).join(', ')});`;
  return [words, ...declarations.map(spellItem), spellStatement(body), `end${what}`].join(' ');
}

export function spellPort(port: PortTable): string {
  const words = [port.direction, port.net, port.variable].filter((word) => word !== null);
  return `${words.join(' ')}${spellType(port.type)} ${spellDeclarators([port.declarator])}`;
}

export function spellHeader(module: ModuleTable): string {
  const slots = module.slots.map(({ external, expression }) => {
    const inside = expression === null ? '' : spell(expression);
    return external === null ? inside : `.${external.name}(${inside})`;
  });
  return [...module.parameters.map(spellItem), ...module.ports.map(spellPort), ...slots].join(' | ');
}

function spellBase({ size, base, signed }: Extract<Expression, { kind: 'number' }>): string {
  if (size === null && base === 'd' && signed) return '';
  return `'${signed ? 's' : ''}${base}`;
}

function spellDelay(delay: DelayTable | null): string {
  return delay === null ? '' : `#(${delay.values.map(spell).join(', ')}) `;
}

function spellEvent(control: EventControl): string {
  if (control.implicit) return '@*';
  return `@(${control.items.map((item) => `${item.edge === null ? '' : `${item.edge} `}${spell(item.expression)}`).join(', ')})`;
}

function spellBody(body: Statement | null): string {
  return body === null ? ';' : spellStatement(body);
}

function spellType(type: TypeTable): string {
  const inline = type.inline === undefined ? '' : ` ${spellInline(type.inline)}`;
  return `${inline}${type.signed ? ' signed' : ''}${type.ranges.map((range) => ` ${spellRange(range)}`).join('')}`;
}

function spellInline(inline: CompositeTable | EnumTable): string {
  if (inline.kind === 'enum') return spellEnum(inline);
  const members = inline.members.map(({ dimensions, name, type, variable }) => {
    const behind = dimensions.map((range) => ` ${spellRange(range)}`).join('');
    const written = `${variable ?? type.named?.name.name ?? ''}${spellType(type)}`.trimStart();
    return `${written} ${name.name}${behind};`;
  });
  return `${inline.what}${inline.packed ? ' packed' : ''} { ${members.join(' ')} }`;
}

function spellRange(range: Range): string {
  return `[${spell(range.msb)}:${spell(range.lsb)}]`;
}

function spellDeclarators(declarators: readonly Declarator[]): string {
  return declarators
    .map(({ name, dimensions, value }) => {
      return `${name.name}${dimensions.map((range) => ` ${spellRange(range)}`).join('')}${value === null ? '' : ` = ${spell(value)}`}`;
    })
    .join(', ');
}

function spellInstance(instance: InstanceTable): string {
  const name = instance.name === null ? '' : instance.name.name;
  const range = instance.range === null ? '' : ` ${spellRange(instance.range)}`;
  return `${name}${range}(${instance.connections.map(spellConnection).join(', ')})`;
}

function spellConnection({ name, value, implied }: Connection): string {
  if (implied === 'all') return '.*';
  if (name === null) return value === null ? '' : spell(value);
  return implied === 'name' ? `.${name.name}` : `.${name.name}(${value === null ? '' : spell(value)})`;
}

function spellBlock(block: GenerateBlock): string {
  const items = block.items.map(spellItem);
  if (!block.delimited) return items.join(' ');
  return [`begin${block.label === null ? '' : ` : ${block.label.name}`}`, ...items, 'end'].join(' ');
}

const rangeMarks = { fixed: ':', up: ' +: ', down: ' -: ' } as const;

function spellSpecified(part: SpecifyPart): string {
  const list = (expressions: readonly Expression[]) => expressions.map(spell).join(', ');
  switch (part.kind) {
    case 'path': {
      const guard =
        part.condition === null ? (part.guard === 'ifnone' ? 'ifnone ' : '') : `if ${spell(part.condition)} `;
      const edge = part.edge === null ? '' : `${part.edge} `;
      return `${guard}${edge}${list(part.from)} ${part.full ? '*>' : '=>'} ${list(part.to)} = ${list(part.delays)}`;
    }
    case 'check':
      return `$${part.check}(${part.args.map((arg) => (arg === null ? '' : spellCheckArgument(arg))).join(', ')})`;
    case 'pulse-limits':
      return `pulse ${part.from === null ? '' : `${part.from} ${part.to} `}= ${list(part.limits)}`;
    case 'pulse-style':
      return `${part.style} ${list(part.outputs)}`;
  }
}

function spellCheckArgument({ condition, edge, edges, expression }: CheckArgument): string {
  const listed = edges.length === 0 ? '' : `[${edges.join(' ')}] `;
  const behind = condition === null ? '' : ` &&& ${spell(condition)}`;
  return `${edge === null ? '' : `${edge} `}${listed}${spell(expression)}${behind}`;
}
