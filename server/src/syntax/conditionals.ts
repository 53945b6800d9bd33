// `ifdef … `elsif … `else … `endif: which text counts. One stack for each file and each macro text, since
// neither may close what another opened.

export interface Arm {
  /** Offset of the opening directive, for saying that it is never closed. */
  readonly opened: number;
  readonly word: string;
  /** Whether the text around it counts. */
  readonly outer: boolean;
  /** Whether this arm's text counts. */
  active: boolean;
  /** Whether an arm so far has counted. */
  taken: boolean;
  /** Whether `else has been. */
  last: boolean;
}

export function isActive(arms: readonly Arm[]): boolean {
  return arms.length === 0 || arms[arms.length - 1].active;
}

export function openArm(arms: Arm[], opening: Pick<Arm, 'opened' | 'word'>, holds: boolean): void {
  const outer = isActive(arms);
  const active = outer && holds;
  arms.push({ ...opening, outer, active, taken: active, last: false });
}

/** `elsif with its condition, or `else with `holds` true. False where no arm is open that it could follow. */
export function nextArm(arms: readonly Arm[], word: string, holds: boolean): boolean {
  const arm = arms[arms.length - 1];
  if (arm === undefined || arm.last) return false;
  arm.active = arm.outer && !arm.taken && holds;
  arm.taken ||= arm.active;
  arm.last = word === 'else';
  return true;
}
