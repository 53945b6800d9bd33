// What a person stated in `foretick.json` and nothing came of, as entries of `assumptions[]`: a name that the design does
// not have, an acceptance that meets no finding, a statement that is not followed. The drive's own names are checked
// where the drive is made.

import { findBits } from '../explain/find-bits';
import { whyWords } from '../explain/why';
import type { DesignFacts } from './design-facts';
import type { StudyOptions } from './options';
import type { OwnDelaysUse } from './own-delays';
import { isOneBit } from './rated-bits';
import { meets } from './build-findings';
import type { ReportAssumption, ReportFinding } from './report';
import type { TextAcceptance } from './text-acceptances';
import type { ReasonArguments } from '../text/complaint';

export function buildStated(
  facts: DesignFacts,
  acceptances: readonly TextAcceptance[],
  findings: readonly ReportFinding[],
): readonly ReportAssumption[] {
  const { options } = facts;
  return [
    ...namesIn(options).flatMap(([list, name]) =>
      isKnown(facts, name) ? [] : [unused(name, list, 'stated-unknown-name')],
    ),
    ...unknownCells(facts),
    ...(facts.hazards.isSearched ? unmetAcceptances(options, acceptances, findings) : []),
    ...facts.ownDelays.flatMap(unmetDelays),
    ...unratedNames(facts),
  ];
}

function unmetAcceptances(
  options: StudyOptions,
  acceptances: readonly TextAcceptance[],
  findings: readonly ReportFinding[],
): readonly ReportAssumption[] {
  return [
    ...options.accepted
      .filter((entry) => !findings.some(({ accepted, id }) => accepted?.reason === entry.reason && id === entry.id))
      .map(({ id, signal }) => unused(signal, `accepted ${id}`, 'stated-acceptance-unmet')),
    ...acceptances.filter((entry) => !findings.some((finding) => meets(entry, finding))).map(unmetComment),
  ];
}

function unmetComment({ id, span }: TextAcceptance): ReportAssumption {
  const why = { reason: 'comment-acceptance-unmet', args: { id } };
  return { about: id, value: 'accepted', source: 'text', reason: whyWords(why), span };
}

/** Every signal that a list of the project file names, with the list. */
function namesIn({ clocks, strobes }: StudyOptions): readonly (readonly [list: string, name: string])[] {
  return [
    ...clocks.static.map((name) => ['static', name] as const),
    ...clocks.related.flat().map((name) => ['related', name] as const),
    ...Object.keys(clocks.clockOperands).map((name) => ['clockOperands', name] as const),
    ...strobes.map((name) => ['strobes', name] as const),
  ];
}

/** A signal or bit, or the pin of a module that is not given. */
function isKnown({ netlist, network }: DesignFacts, name: string): boolean {
  return findBits(netlist, name) !== null || network.roots.some((root) => root.name === name);
}

function unratedNames(facts: DesignFacts): readonly ReportAssumption[] {
  const { netlist, options } = facts;
  const unrated = Object.keys(options.rates).filter((name) => !isOneBit(netlist, name));
  return unrated.map((name) =>
    unused(name, 'rates', isKnown(facts, name) ? 'stated-rate-of-several' : 'stated-unknown-name'),
  );
}

function unmetDelays(use: OwnDelaysUse): readonly ReportAssumption[] {
  const { name } = use;
  if (!use.isKnown) return [unused(name, 'overrides', 'stated-override-unknown')];
  const reached = use.registers + use.latches + use.operators + use.parts.length + use.delayedByText.length;
  return [
    ...(reached === 0 ? [unused(name, 'overrides', 'stated-override-empty')] : []),
    ...use.parts.map((slice) => unused(name, 'overrides', 'stated-override-part', { slice })),
    ...use.delayedByText.map((slice) => unused(name, 'overrides', 'stated-override-text', { slice })),
  ];
}

function unknownCells({ netlist, options }: DesignFacts): readonly ReportAssumption[] {
  const given = new Set(netlist.blackBoxes.map(({ module }) => module));
  return Object.keys(options.clocks.cells)
    .filter((module) => !given.has(module))
    .map((module) => unused(module, 'cells', 'stated-cell-unused'));
}

function unused(about: string, list: string, reason: string, more: ReasonArguments = {}): ReportAssumption {
  const why = { reason, args: { list, name: about, ...more } };
  return { about, value: list, source: 'given', reason: whyWords(why), span: null };
}
