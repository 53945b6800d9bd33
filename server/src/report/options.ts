// Everything that a person may set, brought together once: settings of this run (command line, editor) win over the
// project file, which wins over the defaults.

import { type LimitName, type Limits, limitDefaults } from '../budget';
import type { ClockOptions } from '../clocks/network';
import type { DriveOptions } from '../predict/drive';
import type { FoundElsewhere } from './build-found';
import type { Accepted, Project } from './project';
import { refuse } from './refusal';
import type { WhatIf } from './asked';

/** What one run asks for; null and empty where it does not say. */
export interface Settings {
  readonly top: string | null;
  readonly delays: string | null;
  readonly start: '0' | '1' | 'x' | null;
  /** Parameters of the top, as written. */
  readonly parameters: Readonly<Record<string, string>>;
  readonly defines: Readonly<Record<string, string>>;
  readonly limits: Readonly<Record<string, number>>;
  /** Whether long lists are kept whole. */
  readonly complete: boolean;
  readonly whatIf: readonly WhatIf[];
}

export interface StudyOptions {
  readonly top: string | null;
  readonly parameters: Readonly<Record<string, string>>;
  readonly defines: Readonly<Record<string, string>>;
  readonly limits: Limits;
  /** Name of the delay set. */
  readonly delays: string;
  /** Whether a person named that set, or it is the one that is taken where nobody does. */
  readonly isDelaySetStated: boolean;
  readonly delaySets: Readonly<Record<string, unknown>>;
  readonly overrides: Readonly<Record<string, unknown>>;
  readonly clocks: ClockOptions;
  readonly drive: DriveOptions;
  readonly strobes: readonly string[];
  readonly rates: Readonly<Record<string, number>>;
  readonly accepted: readonly Accepted[];
  readonly complete: boolean;
  /** What is asked besides: how it would be otherwise. */
  readonly whatIf: readonly WhatIf[];
  /** What was found by its name where nobody told to look; absent where nothing was. */
  readonly found?: readonly FoundElsewhere[];
}

export const noSettings: Settings = {
  top: null,
  delays: null,
  start: null,
  parameters: {},
  defines: {},
  limits: {},
  complete: false,
  whatIf: [],
};

/** Throws a `Refusal` where a limit is not one of ours. */
export function optionsFrom(project: Project, settings: Settings): StudyOptions {
  return {
    top: settings.top ?? project.top,
    parameters: settings.parameters,
    defines: { ...project.defines, ...settings.defines },
    limits: { ...limitDefaults, ...project.limits, ...knownLimits(settings.limits) },
    delays: settings.delays ?? project.delays ?? 'unit',
    isDelaySetStated: (settings.delays ?? project.delays) !== null,
    delaySets: project.delaySets,
    overrides: project.overrides,
    clocks: {
      clockOperands: project.clockOperands,
      related: project.related,
      cells: project.cells,
      static: project.static,
    },
    drive: {
      clocks: project.clocks,
      resets: project.resets,
      inputs: project.inputs,
      start: settings.start ?? project.start ?? '0',
    },
    strobes: project.strobes,
    rates: project.rates,
    accepted: project.accepted,
    complete: settings.complete,
    whatIf: settings.whatIf,
  };
}

function knownLimits(limits: Readonly<Record<string, number>>): Partial<Record<LimitName, number>> {
  const unknown = Object.keys(limits).find((name) => !Object.hasOwn(limitDefaults, name));
  if (unknown !== undefined) refuse(`no limit is called ${unknown}: ${Object.keys(limitDefaults).join(', ')}`);
  return limits;
}
