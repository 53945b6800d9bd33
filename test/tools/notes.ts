// Margin notes: what a circuit's author expects, written beside the line that it is about.
//
//   always @(negedge q) r <= ~r;  //> r clock q falling, stage 2 | q finding ripple-chain
//
// `//> SUBJECT FACT, FACT | SUBJECT FACT`: the subject is a word of that line, `q#2` its second occurrence. `//>>`
// speaks for the file. Notes are blanked, keeping every column, before the tool reads the file.

export interface Note {
  readonly file: string;
  /** One-based. */
  readonly line: number;
  readonly subject: string;
  /** One-based column of the subject and of what follows it. */
  readonly column: number;
  readonly endColumn: number;
  readonly fact: string;
}

export interface FileNote {
  readonly keyword: string;
  readonly text: string;
}

export interface NotedFile {
  readonly path: string;
  readonly text: string;
}

export interface Circuit {
  readonly files: readonly NotedFile[];
  readonly notes: readonly Note[];
  readonly fileNotes: readonly FileNote[];
}

/** Reads one annotated file; `//>> file NAME` starts a further file. Throws on a note whose subject is not on its line. */
export function readCircuit(path: string, text: string): Circuit {
  const files: { path: string; lines: string[] }[] = [{ path, lines: [] }];
  const notes: Note[] = [];
  const fileNotes: FileNote[] = [];
  for (const line of text.split('\n')) {
    const fileNote = /^\s*\/\/>>\s*(\S+)\s*(.*?)\r?$/.exec(line);
    if (fileNote?.[1] === 'file') {
      files.push({ path: fileNote[2], lines: [] });
      continue;
    }
    const current = files[files.length - 1];
    if (fileNote) fileNotes.push({ keyword: fileNote[1], text: fileNote[2] });
    else notes.push(...lineNotes(line, current.path, current.lines.length + 1));
    current.lines.push(blanked(line));
  }
  return { files: files.map(({ path, lines }) => ({ path, text: lines.join('\n') })), notes, fileNotes };
}

function blanked(line: string): string {
  const start = line.indexOf('//>');
  return start < 0 ? line : line.slice(0, start) + line.slice(start).replace(/[^\r]/g, ' ');
}

function lineNotes(line: string, file: string, number: number): Note[] {
  const start = line.indexOf('//>');
  if (start < 0) return [];
  const code = line.slice(0, start);
  return line
    .slice(start + 3)
    .trim()
    .split('|')
    .flatMap((part) => subjectNotes(part.trim(), code, file, number));
}

function subjectNotes(part: string, code: string, file: string, line: number): Note[] {
  const [word, ...rest] = part.split(/\s+/);
  const [subject, occurrence] = word.split('#');
  const at = occurrenceOf(code, subject, Number(occurrence ?? 1));
  if (at < 0) throw new Error(`${file}:${line}: the note's subject '${word}' is not on its line`);
  return rest
    .join(' ')
    .split(',')
    .map((fact) => ({
      file,
      line,
      subject: subject,
      column: at + 1,
      endColumn: at + 1 + subject.length,
      fact: fact.trim(),
    }));
}

function occurrenceOf(code: string, subject: string, occurrence: number): number {
  const wordLike = /[\w$]/;
  let seen = 0;
  for (let at = code.indexOf(subject); at >= 0; at = code.indexOf(subject, at + 1)) {
    const before = code[at - 1] ?? ' ';
    const after = code[at + subject.length] ?? ' ';
    const whole =
      !(wordLike.test(subject[0]) && wordLike.test(before)) &&
      !(wordLike.test(subject[subject.length - 1]) && wordLike.test(after));
    if (whole && ++seen === occurrence) return at;
  }
  return -1;
}
