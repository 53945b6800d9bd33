// What a study runs with: choices made in a panel win over settings of the editor, those over the project file, name by
// name.

import { noSettings, optionsFrom, type StudyOptions } from '../../report/options';
import type { Project } from '../../report/project';
import { checkInput, inputOf } from '../../report/project-inputs';
import { refuse } from '../../report/refusal';
import { type WhatIf, whatIfKinds } from '../../report/asked';
import type { StudyChoices } from '../panel-messages';
import type { EditorSettings } from '../settings';

/** Throws a `Refusal` where a setting cannot be followed. */
export function studyOptionsOf(project: Project, settings: EditorSettings, choices: StudyChoices): StudyOptions {
  const options = optionsFrom(project, {
    ...noSettings,
    top: choices.top,
    delays: choices.delays ?? settings.delays,
    start: choices.start ?? settings.start,
    limits: settings.limits,
    whatIf: choices.whatIf.map(checkedWhatIf),
  });
  const { drive } = options;
  const noClock = { periodPs: null, highPs: null, phasePs: null };
  const noReset = { active: null, periods: null };
  return {
    ...options,
    drive: {
      ...drive,
      clocks: merged(drive.clocks, choices.clocks, noClock),
      resets: merged(drive.resets, choices.resets, noReset),
      inputs: { ...drive.inputs, ...chosenInputs(choices.inputs) },
    },
  };
}

/** A page of another version may ask what this one does not know. */
function checkedWhatIf(asked: WhatIf): WhatIf {
  return whatIfKinds.includes(asked.what) ? asked : refuse(`what if ${asked.about} ${asked.what}: not known`);
}

function chosenInputs(chosen: StudyChoices['inputs']): StudyOptions['drive']['inputs'] {
  const entries = Object.entries(chosen).map(([name, written]) => {
    const [wrong] = checkInput(written, name);
    if (wrong !== undefined) refuse(wrong);
    return [name, inputOf(written)] as const;
  });
  return Object.fromEntries(entries);
}

/** Of each name what the choice says, else what stands there; null says nothing. */
function merged<Entry extends object>(
  stated: Readonly<Record<string, Entry>>,
  chosen: Readonly<Record<string, Entry>>,
  none: Entry,
): Readonly<Record<string, Entry>> {
  const entries = Object.entries(chosen).map(([name, choice]) => {
    const said = Object.entries(choice).filter(([, value]) => value !== null);
    return [name, { ...none, ...stated[name], ...Object.fromEntries(said) }] as const;
  });
  return { ...stated, ...Object.fromEntries(entries) };
}
