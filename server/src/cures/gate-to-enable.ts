// `gated-clock`: what the gate clocks takes the gate's clock, and does at it what it does now only where the control lets
// it through. The same only where the control stands still while the clock passes, which trying it tells; a port that
// controls is taken to move only while the gate is closed.

import type { Clock } from '../clocks/network';
import { topPorts } from '../netlist/netlist';
import type { Expression, ModuleTable } from '../syntax/tables';
import { clockedFrom, formsOf, registersOn } from './clocked-form';
import type { CureContext, CureRule, Still } from './cure';
import { definitionOf, moduleOf, textOf } from './declared';
import { invertedText, joined } from './next-value';

export const gateToEnable: CureRule = {
  finding: 'gated-clock',
  propose(context, finding) {
    const { network } = context.facts;
    const clock = network.clocks.find(({ kind, name }) => kind === 'gated' && name === finding.signals[0]);
    if (clock?.gate == null || clock.gate.controls.some(({ foreign, source }) => foreign && source !== 'port'))
      return null;
    const clocked = registersOn(context, clock.id);
    const [first] = clocked;
    const forms = clocked.length === 0 ? null : formsOf(context, clocked);
    if (forms === null || clocked.some(({ clockText }) => clockText !== first.clockText)) return null;
    const { unit } = first.clockPlace;
    const module = moduleOf(context, unit);
    const gate =
      module === null ? null : gateText(context, module, unit, first.clockText, localName(clock.gate.clockNames[0]));
    if (gate === null) return null;
    const edits = forms.flatMap((form) => {
      const isRising = (form.clock.edge === 'posedge') !== gate.turns;
      return clockedFrom(form, `${isRising ? 'posedge' : 'negedge'} ${gate.clock}`, gate.enable);
    });
    const still = stillInputs(context, clock);
    return {
      title: `clock from ${gate.clock} what ${first.clockText} clocks, enabled by ${gate.enable}`,
      edits,
      uncovers: ['opposite-edges'],
      promise: { kind: 'readings', ...(still === null ? {} : { still }) },
      differs:
        still === null
          ? []
          : [
              `a change of ${still.names.join(', ')} while ${gate.clock} is ${still.level === 1 ? 'low' : 'high'} makes no edge any more`,
            ],
    };
  },
};

interface GateText {
  readonly clock: string;
  /** Where this holds, edges of the clock pass. */
  readonly enable: string;
  /** A rising edge of the gate is a falling one of the clock. */
  readonly turns: boolean;
}

function gateText(
  context: CureContext,
  module: ModuleTable,
  unit: number,
  name: string,
  clock: string,
): GateText | null {
  const primitive = primitiveOf(module, name);
  let value: Expression | null = definitionOf(module, name)?.value ?? null;
  let turns = false;
  for (; value?.kind === 'unary' && (value.operator === '~' || value.operator === '!'); value = value.operand)
    turns = !turns;
  const parts = primitive ?? (value?.kind === 'binary' ? flattened(value) : null);
  if (parts === null) return null;
  turns = turns !== parts.isInverted;
  const clocks = parts.operands.filter((operand) => clockIn(operand, clock) !== null);
  if (clocks.length !== 1 || parts.operands.length < 2) return null;
  const controls = parts.operands
    .filter((operand) => operand !== clocks[0])
    .map((operand) => textOf(context, unit, operand));
  const enable = parts.isAnd ? joined(controls) : joined(controls.map(invertedText));
  return { clock, enable, turns: turns !== (clockIn(clocks[0], clock) === 'turned') };
}

interface Parts {
  readonly operands: readonly Expression[];
  readonly isAnd: boolean;
  readonly isInverted: boolean;
}

function flattened(value: Extract<Expression, { kind: 'binary' }>): Parts | null {
  const isAnd = value.operator === '&' || value.operator === '&&';
  if (!isAnd && value.operator !== '|' && value.operator !== '||') return null;
  const operands: Expression[] = [];
  const pending: Expression[] = [value];
  for (let next = pending.pop(); next !== undefined; next = pending.pop()) {
    if (next.kind === 'binary' && next.operator === value.operator) pending.push(next.right, next.left);
    else operands.push(next);
  }
  return { operands, isAnd, isInverted: false };
}

/** `and g(name, …)` and its kin. */
function primitiveOf(module: ModuleTable, name: string): Parts | null {
  for (const item of module.items) {
    if (item.kind !== 'gate' || !['and', 'nand', 'or', 'nor'].includes(item.gate)) continue;
    for (const { connections } of item.instances) {
      const [output, ...inputs] = connections.map(({ value }) => value);
      if (output?.kind !== 'name' || output.name !== name || inputs.some((input) => input === null)) continue;
      return {
        operands: inputs as readonly Expression[],
        isAnd: item.gate === 'and' || item.gate === 'nand',
        isInverted: item.gate === 'nand' || item.gate === 'nor',
      };
    }
  }
  return null;
}

function clockIn(operand: Expression, clock: string): 'straight' | 'turned' | null {
  if (operand.kind === 'name') return operand.name === clock ? 'straight' : null;
  if (operand.kind !== 'unary' || (operand.operator !== '~' && operand.operator !== '!')) return null;
  const inside = clockIn(operand.operand, clock);
  return inside === null ? null : inside === 'straight' ? 'turned' : 'straight';
}

function localName(name: string): string {
  return name.slice(name.lastIndexOf('.') + 1);
}

/** Ports of the top that control it, and the level of the root at which it is closed. */
function stillInputs({ facts: { netlist, network } }: CureContext, { gate, root }: Clock): Still | null {
  const inputs = new Set(
    topPorts(netlist)
      .filter(({ port }) => port === 'input')
      .map(({ name }) => name),
  );
  const names = (gate?.controls ?? [])
    .map(({ name }) => name)
    .filter((name) => inputs.has(name.replace(/\[\d+\]$/, '')));
  const blocking = gate?.blockingLevel ?? null;
  if (names.length === 0 || root === null || blocking === null) return null;
  const operand = network.clocks.find(({ name }) => name === gate?.clockNames[0]);
  const level = operand?.risesOn === 'falling' ? ((1 - blocking) as 0 | 1) : blocking;
  return { names, clock: network.roots[root].name, level };
}
