// What a stage says about the source it could not use. Data only: `explain/` turns a reason into words.

import type { Place } from './place';

export type ReadingId = 'syntax' | 'unsupported' | 'limit-reached' | 'unresolved-name' | 'unresolved-module';

/** Arguments that the sentence for `reason` needs, by name. */
export type ReasonArguments = Readonly<Record<string, string | number>>;

export interface Complaint {
  readonly id: ReadingId;
  /** Which sentence; a key of the table in `explain/complaints.ts`. */
  readonly reason: string;
  readonly args: ReasonArguments;
  readonly place: Place;
  readonly related: readonly { readonly place: Place; readonly reason: string; readonly args: ReasonArguments }[];
}
