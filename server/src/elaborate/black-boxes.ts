// Instances of modules that are not given. The direction of a pin is not known: a pin whose net nothing else drives is
// an output. A pin that is an input in one instance of a cell is one in all; where several pins could drive a net, the
// first one in the text stands for whichever does, and all are called unknown.

import type { NodeId } from '../netlist/netlist';
import { sliceOf } from '../netlist/node-makers';
import { Op } from '../netlist/operators';
import type { BitRange } from './draft-nodes';
import type { BlackBoxDraft, DriverDraft, ModuleDraft, PinDraft } from './module-draft';

export interface SettledPin extends PinDraft {
  readonly direction: 'input' | 'output' | 'unknown';
  /** Number of the output; -1 for an input. */
  readonly output: number;
}

export interface SettledBlackBox extends Omit<BlackBoxDraft, 'pins'> {
  readonly pins: readonly SettledPin[];
}

export interface SettledBlackBoxes {
  readonly boxes: readonly SettledBlackBox[];
  readonly outputs: readonly { readonly box: number; readonly pin: number }[];
}

/** Adds the drivers that outputs are to the draft; `drivers` are all that were there before. */
export function settleBlackBoxes(draft: ModuleDraft): SettledBlackBoxes {
  const driven = drivenBits(draft);
  const inputs = inputPins(draft, driven);
  const claims = claimedBits(draft, inputs);
  const outputs: { box: number; pin: number }[] = [];
  const boxes = draft.blackBoxes.map((blackBox, box) => ({
    ...blackBox,
    pins: blackBox.pins.map((pin, index): SettledPin => {
      if (!isCandidate(blackBox, pin, inputs)) return { ...pin, direction: 'input', output: -1 };
      const direction = isShared(claims, pin) ? 'unknown' : 'output';
      const output = outputs.push({ box, pin: index }) - 1;
      drivePin(draft, blackBox, pin, output, claims);
      return { ...pin, direction, output };
    }),
  }));
  return { boxes, outputs };
}

type BitsBySignal = ReadonlyMap<number, readonly BitRange[]>;

function drivenBits(draft: ModuleDraft): BitsBySignal {
  const bySignal = new Map<number, BitRange[]>();
  const add = (signal: number, range: BitRange) => {
    const list = bySignal.get(signal);
    if (list === undefined) bySignal.set(signal, [range]);
    else list.push(range);
  };
  for (const driver of [...draft.drivers, ...draft.registers, ...draft.latches, ...draft.pulls])
    add(driver.signal, driver);
  for (const { index, port, shape } of draft.signals) {
    const isGiven = port === 'input' || port === 'inout' || shape.type === 'supply0' || shape.type === 'supply1';
    if (isGiven) add(index, { low: 0, width: shape.width });
  }
  return bySignal;
}

function isDriven(driven: BitsBySignal, { nets }: PinDraft): boolean {
  return (nets ?? []).some(({ signal, low, width }) =>
    (driven.get(signal.index) ?? []).some((range) => range.low < low + width && low < range.low + range.width),
  );
}

/** Pins, by cell and name, that are an input somewhere. */
function inputPins(draft: ModuleDraft, driven: BitsBySignal): ReadonlySet<string> {
  const inputs = new Set<string>();
  for (const { module, pins } of draft.blackBoxes) {
    for (const pin of pins) if (pin.nets === null || isDriven(driven, pin)) inputs.add(pinKey(module, pin));
  }
  return inputs;
}

function pinKey(module: string, { name }: PinDraft): string {
  return `${module} ${name}`;
}

function isCandidate({ module }: BlackBoxDraft, pin: PinDraft, inputs: ReadonlySet<string>): boolean {
  return pin.nets !== null && pin.width > 0 && !inputs.has(pinKey(module, pin));
}

interface Claim extends BitRange {
  readonly pin: PinDraft;
}

function claimedBits(draft: ModuleDraft, inputs: ReadonlySet<string>): ReadonlyMap<number, readonly Claim[]> {
  const claims = new Map<number, Claim[]>();
  for (const blackBox of draft.blackBoxes) {
    for (const pin of blackBox.pins) {
      if (!isCandidate(blackBox, pin, inputs)) continue;
      for (const { signal, low, width } of pin.nets ?? []) {
        const list = claims.get(signal.index) ?? [];
        list.push({ low, width, pin });
        claims.set(signal.index, list);
      }
    }
  }
  return claims;
}

function isShared(claims: ReadonlyMap<number, readonly Claim[]>, pin: PinDraft): boolean {
  return (pin.nets ?? []).some(({ signal, low, width }) =>
    (claims.get(signal.index) ?? []).some(
      (claim) => claim.pin !== pin && claim.low < low + width && low < claim.low + claim.width,
    ),
  );
}

/** Drives the bits that no earlier pin has claimed. */
function drivePin(
  draft: ModuleDraft,
  blackBox: BlackBoxDraft,
  pin: PinDraft,
  output: number,
  claims: ReadonlyMap<number, readonly Claim[]>,
): void {
  const place = draft.source.place(pin.at);
  const whole =
    blackBox.complaint === null
      ? draft.nodes.add(Op.blackBox, pin.width, [], output, place)
      : draft.nodes.add(Op.hole, pin.width, [], blackBox.complaint, place);
  let above = pin.width;
  for (const { signal, low, width } of pin.nets ?? []) {
    above -= width;
    const first = (claims.get(signal.index) ?? []).find(
      (claim) => claim.low < low + width && low < claim.low + claim.width,
    );
    if (first?.pin !== pin) continue;
    const node: NodeId = sliceOf(draft.nodes, whole, above, width, place);
    const driver: DriverDraft = {
      signal: signal.index,
      low,
      width,
      value: { kind: 'node', node },
      process: null,
      at: pin.at,
      canRelease: false,
      isContinuous: false,
    };
    draft.drivers.push(driver);
  }
}
