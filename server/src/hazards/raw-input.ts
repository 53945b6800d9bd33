// `raw-input`: a port that cannot be in step with all who sample it, sampled where that shows. Told only on evidence: clocks
// without a relation hear it, or one reader brings it in through flip-flops in a row and another does not. A port that one
// clock alone hears may well be in step with it: its enables and data are silent, and so is what a person states.

import type { InputReader, InputUse } from '../clocks/network';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { registerName, togetherByPlace } from './subjects';

export const rawInput: FindingRule = {
  id: 'raw-input',
  find(context) {
    const silent = statedNames(context);
    return context.network.inputs.flatMap((use) => (silent.has(use.name) ? [] : (findOne(context, use) ?? [])));
  },
};

/** Clocks and resets have findings of their own; what is stated, or told by a test bench, is known. */
function statedNames({ options, prediction }: HazardContext): ReadonlySet<string> {
  const { clocks, inputs, resets } = prediction.drive;
  const stated = inputs.filter(({ source }) => source === 'given');
  return new Set([...options.static, ...[...clocks, ...resets, ...stated].map(({ name }) => name)]);
}

function findOne(context: HazardContext, use: InputUse): RawFinding | null {
  const { netlist, network } = context;
  const raw = rawReaders(context, use);
  if (raw.length === 0) return null;
  const name = ({ register }: InputReader) => registerName(netlist, register);
  const domains = [...new Set(use.readers.map(({ domain }) => domain))].map((id) => network.domains[id].name);
  const safe = use.readers.filter((reader) => !raw.includes(reader));
  return {
    id: 'raw-input',
    certainty: null,
    signals: [use.name, ...use.readers.map(name)],
    instance: '',
    place: use.place,
    related: togetherByPlace(
      raw.map((reader) => ({ place: netlist.registers[reader.register].samplePlace, name: name(reader) })),
    ).map(({ names, place }) => ({
      place,
      why: { reason: 'input-sampled', args: { port: use.name, register: names } },
    })),
    facts: { port: use.name, raw: raw.map(name), synchronized: safe.map(name), domains },
    weight: {},
  };
}

/** Those that two flip-flops in a row do not shield, where something says that they should. */
function rawReaders({ network }: HazardContext, { readers }: InputUse): readonly InputReader[] {
  const raw = readers.filter(({ depth }) => depth < 2);
  const isAlsoSynchronized = readers.length > raw.length;
  const [first] = readers;
  const isUnrelated = readers.some(
    ({ domain }) => domain !== first.domain && !network.domains[first.domain].related.includes(domain),
  );
  return isAlsoSynchronized || isUnrelated ? raw : [];
}
