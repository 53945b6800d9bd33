// What is saved of a study but its picture: the run as a value change dump, the report in a form for programs or people.
// The same writers as the command line's. Files are named from the folder that holds them all, so that nothing of the
// machine goes along.

import { fileName } from '../../drawing/file-name';
import type { Report } from '../../report/report';
import type { Study } from '../../report/study';
import { writeJson } from '../../report/write-json';
import { writeMarkdown } from '../../report/write-markdown';
import { writeSarif } from '../../report/write-sarif';
import type { FileForm } from '../panel-messages';

const writers: Readonly<Record<Exclude<FileForm, 'vcd'>, (report: Report) => string>> = {
  json: writeJson,
  md: writeMarkdown,
  sarif: writeSarif,
};

export interface WrittenFile {
  readonly suggestedName: string;
  readonly text: string;
}

/** Null where there is nothing to write: a dump of no design. */
export function* writeFileOf(study: Study, form: FileForm): Generator<void, WrittenFile | null> {
  const report = yield* study.report();
  const suggestedName = `${fileName(report.top ?? 'design')}.${form}`;
  if (form !== 'vcd') return { suggestedName, text: withoutFolder(writers[form](report), report.files) };
  return report.top === null ? null : { suggestedName, text: yield* study.dump() };
}

function withoutFolder(text: string, files: readonly string[]): string {
  const folder = commonFolder(files);
  return folder === '' ? text : text.replaceAll(folder, '');
}

/** With `/` at its end; empty where the files have none in common. */
function commonFolder([first = '', ...others]: readonly string[]): string {
  let folder = first.slice(0, first.lastIndexOf('/') + 1);
  while (folder !== '' && !others.every((file) => file.startsWith(folder))) {
    folder = folder.slice(0, folder.lastIndexOf('/', folder.length - 2) + 1);
  }
  // Above the root of a file system there is no folder.
  return /^[A-Za-z][A-Za-z0-9+.-]*:\/*$/.test(folder) ? '' : folder;
}
