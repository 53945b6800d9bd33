// Everything that the stages found out about one design, as the builders of the report read it, and the few names that
// several of them need. No decisions.

import type { ClockNetwork, DomainId } from '../clocks/network';
import type { Finding } from '../hazards/finding';
import type { Glitch } from '../hazards/glitch';
import { type BitNames, signalSliceName } from '../netlist/bit-names';
import type { Netlist, RegisterId } from '../netlist/netlist';
import type { Violation } from '../predict/check-runs';
import type { Fraction, Prediction } from '../predict/prediction';
import type { SettlingRead } from '../predict/settling-read';
import type { Complaint } from '../text/complaint';
import type { StudyOptions } from './options';
import type { OwnDelaysUse } from './own-delays';
import type { Places } from '../explain/places';

export interface Hazards {
  /** Whether glitches have been searched for: until then nothing here is about them. */
  readonly isSearched: boolean;
  readonly findings: readonly Finding[];
  readonly glitches: readonly Glitch[];
  /** `limit-reached`: what the search for glitches did not look at. */
  readonly limits: readonly Complaint[];
}

export interface DesignFacts {
  readonly options: StudyOptions;
  readonly places: Places;
  readonly netlist: Netlist;
  readonly names: BitNames;
  readonly network: ClockNetwork;
  readonly prediction: Prediction;
  /** What became of the delays stated for single instances and signals. */
  readonly ownDelays: readonly OwnDelaysUse[];
  /** Timing checks that the runs do not keep. */
  readonly violations: readonly Violation[];
  /** Registers that read a chain before it has settled. */
  readonly reads: readonly SettlingRead[];
  readonly hazards: Hazards;
}

/** `u1.q[3:0]`: a register by the bits it holds. */
export function registerName({ netlist }: DesignFacts, id: RegisterId): string {
  const { signal, low, width } = netlist.registers[id];
  return signalSliceName(netlist.signals[signal], low, width);
}

export function rootNames({ network }: DesignFacts, roots: readonly number[]): readonly string[] {
  return roots.map((root) => network.roots[root].name);
}

export function domainName({ network }: DesignFacts, domain: DomainId | null): string | null {
  return domain === null ? null : network.domains[domain].name;
}

/** `p/q`, in lowest terms; null stays null. */
export function fractionText(fraction: Fraction | null): string | null {
  return fraction === null ? null : `${fraction.numerator}/${fraction.denominator}`;
}

/** The longest list that is printed whole. Its length before shortening always stands beside it. */
const longestList = 256;

export function shortened<Item>({ options }: DesignFacts, items: readonly Item[]): readonly Item[] {
  return options.complete ? items : items.slice(0, longestList);
}
