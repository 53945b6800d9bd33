// How a decode is registered: at which edge, what resets it, what it starts with; and the text that says so.

import type { EdgeKind, Register, RegisterId } from '../netlist/netlist';
import { clockedForm, type ClockedForm } from './clocked-form';
import type { CureContext } from './cure';
import { rangeText, textOf } from './declared';
import { valueUnder } from './decode-value';
import type { DecodeText } from './decode-text';
import { findWord, freeName, indentationAt, isPlainName, lineEndOf } from './text';

export interface Sampling {
  /** As written in an edge list. */
  readonly clock: string;
  readonly rootEdge: EdgeKind;
  /** The whole list of edges, without its parentheses. */
  readonly edges: string;
  /** In order of priority, with the digits that each loads, by target. */
  readonly resets: readonly { readonly condition: string; readonly values: readonly string[] }[];
  /** Digits at the start, by target; null where a reset gives them, or nobody says. */
  readonly start: readonly string[] | null;
  /** Told where the start is only assumed. */
  readonly startAssumed: string | null;
}

/** As the registers that it decodes: with their clock, their resets and their start; null where those are not alike. */
export function samplingOfNext(
  context: CureContext,
  { signals, targets, unit }: DecodeText,
  registers: readonly Register[],
): Sampling | null {
  const { netlist, network, prediction } = context.facts;
  const forms = registers.map((register) => clockedForm(context, register));
  const [form] = forms;
  if (form === null || form === undefined) return null;
  const listOf = (one: ClockedForm | null) =>
    one?.process.body.kind === 'event' ? textOf(context, unit, one.process.body.control) : '';
  const resetsOf = (one: ClockedForm | null) =>
    one?.resets.map(({ condition }) => textOf(context, unit, condition)).join(';');
  if (forms.some((one) => listOf(one) !== listOf(form) || resetsOf(one) !== resetsOf(form))) return null;
  const valuesWith = (digitsOf: (id: RegisterId) => string | null): readonly string[] | null => {
    const digits = new Map(
      registers.flatMap(({ id }) => {
        const text = digitsOf(id);
        return text === null ? [] : [[id, text] as const];
      }),
    );
    const values = signals.map(({ node }) => valueUnder(netlist, node, digits));
    return values.includes(null) ? null : (values as readonly string[]);
  };
  const resets = form.resets.map(({ condition }, index) => ({
    condition: textOf(context, unit, condition),
    values: valuesWith((id) => network.registers[id].asynchronous[index]?.digits ?? null),
  }));
  if (resets.some(({ values }) => values === null)) return null;
  const start = valuesWith((id) => prediction.registers[id].start);
  const isAssumed = registers.some(({ id }) => prediction.registers[id].startFrom === 'assumed');
  const root = network.registers[registers[0].id].root?.edge;
  return {
    clock: textOf(context, unit, form.clock.expression),
    rootEdge: root === 'falling' ? 'falling' : 'rising',
    edges: edgesIn(listOf(form)),
    resets: resets as Sampling['resets'],
    start: form.resets.length > 0 ? null : start,
    startAssumed:
      form.resets.length === 0 && isAssumed && start !== null
        ? `${targets.join(', ')} starts at ${start.join(', ')}, which is right where the registers start as assumed`
        : null,
  };
}

/** `@(posedge clk or negedge rst)`: what stands in it. */
function edgesIn(list: string): string {
  return list.replace(/^@\s*\(?\s*/, '').replace(/\s*\)$/, '');
}

/** At the edge of the root that something in the same module follows directly; null where nothing does. */
export function samplingOfRoot(
  { facts: { netlist, network } }: CureContext,
  { signals }: DecodeText,
  root: string,
): Sampling | null {
  const found = netlist.registers.find(({ clockText, id, instance }) => {
    const clocking = network.registers[id];
    const isOfRoot = clocking.root !== null && network.roots[clocking.root.root].name === root;
    return (
      isOfRoot &&
      clocking.stage === 1 &&
      network.clocks[clocking.clock].gate === null &&
      instance === signals[0].instance &&
      isPlainName(clockText)
    );
  });
  const edge = found === undefined ? undefined : network.registers[found.id].root?.edge;
  if (found === undefined || edge === undefined || edge === 'either') return null;
  const edges = `${found.edge === 'rising' ? 'posedge' : 'negedge'} ${found.clockText}`;
  return { clock: found.clockText, rootEdge: edge, edges, resets: [], start: null, startAssumed: null };
}

export interface SamplingText {
  /** What is written before the item; empty where nothing is. */
  readonly lines: string;
  readonly replaced: readonly { readonly start: number; readonly end: number; readonly text: string }[];
}

export function createSampling(
  context: CureContext,
  decode: DecodeText,
  next: string,
  sampling: Sampling,
): SamplingText {
  return decode.process === null
    ? besideIt(context, decode, next, sampling)
    : inItsProcess(context, decode, next, sampling);
}

/** A register beside the continuous assignment, which passes it on. */
function besideIt(context: CureContext, decode: DecodeText, next: string, sampling: Sampling): SamplingText {
  const { local, start: at, unit, whole } = decode;
  const { text } = context.reading.units[unit];
  const held = freeName(text, `${local}_held`);
  const flat = next.replace(/\s*\n\s*/g, ' ');
  const branches = sampling.resets.map(
    ({ condition, values }) => `if (${condition}) ${held} <= ${literal(values[0])};`,
  );
  const lines = [
    `reg ${rangeText(context, unit, local)}${held};`,
    ...(sampling.start === null ? [] : [`initial ${held} = ${literal(sampling.start[0])};`]),
    ...(branches.length === 0
      ? [`always @(${sampling.edges}) ${held} <= ${flat};`]
      : [
          `always @(${sampling.edges})`,
          ...branches.map((branch, index) => `  ${index === 0 ? '' : 'else '}${branch}`),
          `  else ${held} <= ${flat};`,
        ]),
  ];
  const break_ = `${lineEndOf(text)}${indentationAt(text, at)}`;
  return {
    lines: lines.map((line) => `${line}${break_}`).join(''),
    replaced: [{ start: whole.at.start, end: whole.at.end, text: held }],
  };
}

/** The process waits for the edge and assigns at its end. */
function inItsProcess(context: CureContext, decode: DecodeText, next: string, sampling: Sampling): SamplingText {
  const { process, start: at, targets, unit, whole } = decode;
  const { text } = context.reading.units[unit];
  if (process === null) return { lines: '', replaced: [] };
  const loads = (values: readonly string[]) => {
    const each = targets.map((target, index) => `${target} <= ${literal(values[index])};`);
    return each.length === 1 ? each[0] : `begin ${each.join(' ')} end`;
  };
  const resets = sampling.resets.map(({ condition, values }) => `if (${condition}) ${loads(values)} else `).join('');
  const body = nonblocking(next);
  const head = process.item.body.kind === 'event' ? process.item.body.control.at : null;
  const start =
    sampling.start === null
      ? []
      : sampling.start.map((digits, index) => `initial ${targets[index]} = ${literal(digits)};`);
  const break_ = `${lineEndOf(text)}${indentationAt(text, at)}`;
  const list = `@(${sampling.edges})`;
  const keyword = findWord(text, ['always_comb'], at, whole.at.start) ?? at;
  return {
    lines: start.map((line) => `${line}${break_}`).join(''),
    replaced: [
      head === null
        ? { start: keyword, end: keyword + 'always_comb'.length, text: `always_ff ${list}` }
        : { start: head.start, end: head.end, text: list },
      { start: whole.at.start, end: whole.at.end, text: `${resets}${body}` },
    ],
  };
}

/** Every `=` of an assignment: in a statement of logic those are the only ones that stand alone. */
function nonblocking(statement: string): string {
  return statement.replace(/\/\/[^\n]*|\/\*[\s\S]*?\*\/|"[^"\n]*"|[<>=!]=+[=?]?|=/g, (mark) =>
    mark === '=' ? '<=' : mark,
  );
}

function literal(digits: string): string {
  return `${digits.length}'b${digits}`;
}
