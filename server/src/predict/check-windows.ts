// One timing check against finished waves: where the events fall into its window (IEEE 1364-2005 15.2, 15.3). Which ends
// of a window are inside it stands beside each; clause numbers and ends are from memory of the standard.

import type { Corner } from '../delays/triple';
import type { Check } from './checks';
import { type Occurrence, occurrencesOf } from './check-events';
import type { Waves } from './waves';

/** An event of the reference and one of the data that stand too close, or too far apart. */
export interface Breach {
  readonly kind: 'setup' | 'hold' | 'recovery' | 'removal' | 'skew' | 'width' | 'period' | 'nochange';
  readonly reference: Occurrence;
  readonly data: Occurrence;
  /** ps that stand between them, and that should. */
  readonly gap: number;
  readonly limit: number;
}

/** In order of time of the reference. */
export function breachesOf(waves: Waves, check: Check, corner: Corner): readonly Breach[] {
  const references = occurrencesOf(waves, check.reference);
  if (references.length === 0) return [];
  const data = check.data === null ? [] : occurrencesOf(waves, check.data);
  const [first, second = 0] = check.limits.map((limit) => limit[corner]);
  switch (check.kind) {
    case 'setup':
      return before('setup', references, data, first);
    case 'hold':
      return behind('hold', references, data, first);
    case 'recovery':
      return behind('recovery', references, data, first);
    case 'removal':
      return before('removal', references, data, first);
    case 'setuphold':
      return around(['setup', 'hold'], references, data, [first, second]);
    case 'recrem':
      return around(['removal', 'recovery'], references, data, [second, first]);
    case 'skew':
      return skewed(references, data, first);
    case 'width':
      return narrow(waves, check, references, { limit: first, threshold: second });
    case 'period':
      return frequent(references, first);
    case 'nochange':
      return changing(waves, check, references, data, [first, second]);
  }
}

/** 15.2.1, 15.2.4: in (reference − limit, reference), neither end inside. */
function before(
  kind: Breach['kind'],
  references: readonly Occurrence[],
  data: readonly Occurrence[],
  limit: number,
): Breach[] {
  let next = 0;
  return references.flatMap((reference) => {
    while (next < data.length && data[next].time < reference.time) next++;
    const gap = next === 0 ? limit : reference.time - data[next - 1].time;
    return gap < limit ? [{ kind, reference, data: data[next - 1], gap, limit }] : [];
  });
}

/** 15.2.2, 15.2.5: in [reference, reference + limit), the beginning inside. */
function behind(
  kind: Breach['kind'],
  references: readonly Occurrence[],
  data: readonly Occurrence[],
  limit: number,
): Breach[] {
  let next = 0;
  return references.flatMap((reference) => {
    while (next < data.length && data[next].time < reference.time) next++;
    const gap = next === data.length ? limit : data[next].time - reference.time;
    return gap < limit ? [{ kind, reference, data: data[next], gap, limit }] : [];
  });
}

/**
 * 15.2.3, 15.2.6: as the two separate checks while neither limit is negative. With a negative one the window lies wholly
 * on one side: (reference − before, reference + after), neither end inside.
 */
function around(
  [early, late]: readonly [Breach['kind'], Breach['kind']],
  references: readonly Occurrence[],
  data: readonly Occurrence[],
  [least, most]: readonly [number, number],
): Breach[] {
  if (least >= 0 && most >= 0)
    return [...before(early, references, data, least), ...behind(late, references, data, most)].sort(
      (left, right) => left.reference.change - right.reference.change,
    );
  let next = 0;
  return references.flatMap((reference): Breach[] => {
    while (next < data.length && data[next].time <= reference.time - least) next++;
    const found = data[next];
    if (found === undefined || found.time >= reference.time + most) return [];
    const distance = found.time - reference.time;
    return distance >= 0
      ? [{ kind: late, reference, data: found, gap: distance, limit: most }]
      : [{ kind: early, reference, data: found, gap: -distance, limit: least }];
  });
}

/** 15.3.1: data more than the limit behind the reference before it. */
function skewed(references: readonly Occurrence[], data: readonly Occurrence[], limit: number): Breach[] {
  let next = 0;
  return data.flatMap((event) => {
    while (next < references.length && references[next].time <= event.time) next++;
    if (next === 0) return [];
    const reference = references[next - 1];
    const gap = event.time - reference.time;
    return gap > limit ? [{ kind: 'skew' as const, reference, data: event, gap, limit }] : [];
  });
}

/** 15.3.4: a pulse wider than the threshold and narrower than the limit, neither end inside. */
function narrow(
  waves: Waves,
  { reference: { bits } }: Check,
  references: readonly Occurrence[],
  { limit, threshold }: { readonly limit: number; readonly threshold: number },
): Breach[] {
  const changes = occurrencesOf(waves, { bits, edges: [], condition: null, text: '' });
  let next = 0;
  return references.flatMap((reference) => {
    while (next < changes.length && changes[next].time <= reference.time) next++;
    if (next === changes.length) return [];
    const gap = changes[next].time - reference.time;
    if (gap >= limit || gap <= threshold) return [];
    return [{ kind: 'width' as const, reference, data: changes[next], gap, limit }];
  });
}

/** 15.3.5: two edges of one direction less than the limit apart. */
function frequent(references: readonly Occurrence[], limit: number): Breach[] {
  return references.slice(1).flatMap((data, index) => {
    const reference = references[index];
    const gap = data.time - reference.time;
    return gap < limit ? [{ kind: 'period' as const, reference, data, gap, limit }] : [];
  });
}

/** 15.3.6: data that moves between the reference edge and the opposite one, the offsets reaching outward; ends free. */
function changing(
  waves: Waves,
  { reference: { bits } }: Check,
  references: readonly Occurrence[],
  data: readonly Occurrence[],
  [start, end]: readonly [number, number],
): Breach[] {
  const changes = occurrencesOf(waves, { bits, edges: [], condition: null, text: '' });
  let next = 0;
  let first = 0;
  return references.flatMap((reference) => {
    while (next < changes.length && changes[next].time <= reference.time) next++;
    const close = changes[next]?.time ?? waves.end;
    while (first < data.length && data[first].time <= reference.time - start) first++;
    if (first === data.length || data[first].time >= close + end) return [];
    const gap = Math.abs(data[first].time - reference.time);
    return [{ kind: 'nochange' as const, reference, data: data[first], gap, limit: start }];
  });
}
