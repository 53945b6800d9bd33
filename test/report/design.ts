// Everything that the stages find out about a circuit by hand, as the builders of report and preview read it. Places are
// made up: the line is where the place starts.
import { findClocks } from '../../server/src/clocks/find-clocks';
import type { Places } from '../../server/src/explain/places';
import type { Finding } from '../../server/src/hazards/finding';
import type { Glitch } from '../../server/src/hazards/glitch';
import { createBitNames } from '../../server/src/netlist/bit-names';
import type { Netlist } from '../../server/src/netlist/netlist';
import { driveOf } from '../../server/src/predict/drive-of';
import { predict } from '../../server/src/predict/predict';
import { predictWaves } from '../../server/src/predict/timed-engine';
import { findWindows } from '../../server/src/predict/windows';
import type { PreviewRun } from '../../server/src/report/study-design';
import type { Waves } from '../../server/src/predict/waves';
import { chooseDelaySet, statedOverrides } from '../../server/src/report/delay-choice';
import type { DesignFacts } from '../../server/src/report/design-facts';
import { meetOwnDelays } from '../../server/src/report/own-delays';
import { noSettings, optionsFrom } from '../../server/src/report/options';
import { ratedBits } from '../../server/src/report/rated-bits';
import { parseProject } from '../../server/src/report/project';
import { finish } from '../predict/timed';

export const handPlaces: Places = {
  spanOf: ({ start }) => ({ file: 'hand.v', line: start + 1, column: 1, endLine: start + 1, endColumn: 2 }),
  textOf: ({ start }) => `text ${start}`,
  writtenIn: () => null,
};

export interface Hand {
  readonly project?: object;
  readonly glitches?: readonly Glitch[];
  readonly findings?: readonly Finding[];
  readonly complete?: boolean;
}

export function designOf(
  netlist: Netlist,
  { complete = false, findings = [], glitches = [], project = {} }: Hand = {},
): DesignFacts {
  const options = optionsFrom(parseProject(JSON.stringify(project), 'foretick.json'), { ...noSettings, complete });
  const network = finish(findClocks(netlist, options.clocks));
  const drive = driveOf(netlist, network, options.drive);
  const { limits } = options;
  const { start } = options.drive;
  const chosen = chooseDelaySet(options);
  const { delaySet, uses: ownDelays } = meetOwnDelays(netlist, chosen, statedOverrides(options));
  const rated = ratedBits(netlist, options).map(({ bit }) => bit);
  const prediction = finish(predict({ netlist, network, drive, delaySet, start, limits, rated }));
  const hazards = { isSearched: true, findings, glitches, limits: [] };
  const names = createBitNames(netlist);
  return {
    options,
    places: handPlaces,
    netlist,
    names,
    network,
    prediction,
    ownDelays,
    violations: [],
    reads: [],
    hazards,
  };
}

export function wavesOf({ netlist, network, options, prediction }: DesignFacts, until: number): Waves {
  const { delaySet, drive } = prediction;
  const { limits } = options;
  return finish(predictWaves({ netlist, network, drive, delaySet, until, limits, start: options.drive.start }));
}

/** The run of a preview, and the windows of everything in it. */
export function previewRunOf(design: DesignFacts, until: number): PreviewRun {
  const { netlist, network, prediction } = design;
  const { delaySet, drive } = prediction;
  const waves = wavesOf(design, until);
  return { waves, windows: finish(findWindows({ netlist, network, delaySet, drive, waves })) };
}
