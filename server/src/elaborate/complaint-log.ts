// Collects complaints of one module. The same construct is read once per generate turn and parameter set, so an equal
// complaint at the same place is kept once; its index stays valid, for the holes that name it.

import type { Complaint } from '../text/complaint';
import type { Place } from '../text/place';
import { type ElaborationReason, type ElaborationReasons, readingIds } from './reasons';

export interface ComplaintLog {
  readonly complaints: readonly Complaint[];
  /** Index of the complaint, new or already there. */
  add<Reason extends ElaborationReason>(reason: Reason, args: ElaborationReasons[Reason], place: Place): number;
}

export function createComplaintLog(): ComplaintLog {
  const complaints: Complaint[] = [];
  const indices = new Map<string, number>();
  return {
    complaints,
    add(reason, args, place) {
      const complaint: Complaint = { id: readingIds[reason], reason, args: { ...args }, place, related: [] };
      const key = complaintKey(complaint);
      const known = indices.get(key);
      if (known !== undefined) return known;
      indices.set(key, complaints.length);
      return complaints.push(complaint) - 1;
    },
  };
}

/** Equal for complaints that say the same about the same place. */
export function complaintKey({ reason, args, place }: Complaint): string {
  return `${reason} ${place.unit} ${place.start} ${place.end} ${JSON.stringify(args)}`;
}
