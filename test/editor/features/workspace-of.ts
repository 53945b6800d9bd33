// A workspace made of the files of a test, as the server's back would gather it: every file in one reading of its own, with
// all others behind it.

import type { Further, WorkspaceView } from '../../../server/src/editor/features/workspace-view';
import { scanFile } from '../../../server/src/report/scan-file';
import { studyOf, toEnd } from '../../tools/report-of';

export async function viewOf(files: Readonly<Record<string, string>>, further: Further): Promise<WorkspaceView> {
  const sources = Object.entries(files)
    .map(([path, text]) => ({ path, text }))
    .sort((left, right) => (left.path < right.path ? -1 : 1));
  const scanned = sources.map(({ path, text }) => ({ uri: path, ...toEnd(scanFile(text)) }));
  const wanted = sources.filter(({ path, text }) =>
    further.kind === 'units'
      ? scanned.some(({ units, uri }) => uri === path && units.some(({ name }) => further.names.includes(name)))
      : text.includes(further.word),
  );
  const readings = await Promise.all(
    wanted.map(async (source) => {
      const study = await studyOf([source, ...sources.filter(({ path }) => path !== source.path)]);
      return { uri: source.path, reading: toEnd(study.reading()) };
    }),
  );
  return {
    units: scanned.flatMap(({ units, uri }) => units.map((unit) => ({ uri, unit }))),
    macros: scanned.flatMap(({ macros, uri }) => macros.map((macro) => ({ uri, macro }))),
    readings: further.kind === 'texts' ? [] : readings,
    texts: further.kind === 'texts' ? wanted : [],
    isWhole: true,
  };
}
