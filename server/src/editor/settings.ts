// What a person has set in the editor below `foretick`, for one document. What is missing or of the wrong kind counts as
// not set: an editor shows its own complaint about it.

export interface EditorSettings {
  readonly delays: string | null;
  readonly start: '0' | '1' | 'x' | null;
  readonly hints: HintSettings;
  readonly diagnostics: { readonly harmless: boolean };
  readonly limits: Readonly<Record<string, number>>;
}

/** Which inlay hints are shown. */
export interface HintSettings {
  readonly clock: boolean;
  readonly ratio: boolean;
  readonly stage: boolean;
}

/** `value` as the client has it, of any form. */
export function readSettings(value: unknown): EditorSettings {
  const { delays, diagnostics, hints, limits, start } = asRecord(value);
  const { clock, ratio, stage } = asRecord(hints);
  return {
    delays: typeof delays === 'string' && delays !== '' ? delays : null,
    start: start === '0' || start === '1' || start === 'x' ? start : null,
    hints: { clock: clock !== false, ratio: ratio !== false, stage: stage !== false },
    diagnostics: { harmless: asRecord(diagnostics).harmless !== false },
    limits: numbersOf(asRecord(limits)),
  };
}

function asRecord(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? (value as Readonly<Record<string, unknown>>) : {};
}

function numbersOf(record: Readonly<Record<string, unknown>>): Readonly<Record<string, number>> {
  const numbers = Object.entries(record).filter((entry): entry is [string, number] => Number.isInteger(entry[1]));
  return Object.fromEntries(numbers.filter(([, value]) => value >= 0));
}
