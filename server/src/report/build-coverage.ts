// `coverage` of the report: what was not read, not rooted or not judged, so that silence is not taken for safety.

import { complaintWords } from '../explain/complaints';
import type { Complaint } from '../text/complaint';
import { type DesignFacts, registerName } from './design-facts';
import { compareSpans, inOrder, type Places } from '../explain/places';
import type { Coverage } from './report';

/** `design` is null where no top could be chosen. */
export function buildCoverage(places: Places, complaints: readonly Complaint[], design: DesignFacts | null): Coverage {
  return {
    ...(design === null ? nothingJudged : buildDesignCoverage(design)),
    skipped: inOrder(
      complaints
        .filter(({ id }) => id === 'unsupported' || id === 'unresolved-name' || id === 'syntax')
        .map((complaint) => ({ message: complaintWords(complaint), span: places.spanOf(complaint.place) })),
    ),
    limits: limitsReached(places, complaints),
  };
}

type DesignCoverage = Pick<Coverage, 'unrooted' | 'blackBoxes' | 'checked' | 'assumed' | 'notChecked'>;

const nothingJudged: DesignCoverage = { unrooted: [], blackBoxes: [], checked: 0, assumed: 0, notChecked: 0 };

function buildDesignCoverage(design: DesignFacts): DesignCoverage {
  const { netlist, network, places } = design;
  const unrooted = network.registers.filter(({ root }) => root === null);
  const assumed = network.crossings.filter(({ status }) => status === 'assumed').length;
  return {
    unrooted: unrooted.map(({ register }) => registerName(design, register)),
    blackBoxes: inOrder(
      netlist.blackBoxes.map(({ instance, module, place }) => ({ instance, module, span: places.spanOf(place) })),
      ({ instance }) => instance,
    ),
    checked: network.crossings.length - assumed,
    assumed,
    notChecked: unrooted.length,
  };
}

function limitsReached(places: Places, complaints: readonly Complaint[]): Coverage['limits'] {
  const reached = complaints
    .filter(({ id }) => id === 'limit-reached')
    .map(({ args, reason, place }) => ({
      name: typeof args.limit === 'string' ? args.limit : reason,
      limit: Number(args.value ?? args.limit ?? 0),
      span: places.spanOf(place),
    }));
  return reached.sort((left, right) => compareSpans(left.span, right.span));
}
