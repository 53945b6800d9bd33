// A complaint while its unit is being read: placed in the unit's text, not yet in the study's list of units.

import type { Complaint, ReadingId, ReasonArguments } from '../text/complaint';
import { type Reason, type ReasonTable, readingReasons } from './reasons';
import type { At } from './tables';

export interface Remark {
  readonly id: ReadingId;
  readonly reason: Reason;
  readonly args: ReasonArguments;
  readonly at: At;
}

export function remark<R extends Reason>(reason: R, args: ReasonTable[R], at: At): Remark {
  return { id: readingReasons[reason], reason, args: { ...args }, at };
}

export function complaintOf(remark: Remark, unit: number): Complaint {
  const place = { unit, start: remark.at.start, end: remark.at.end };
  return { id: remark.id, reason: remark.reason, args: remark.args, place, related: [] };
}
