// Whether a file holds text at all: a picture, a program or text in another coding is told by the characters that no text
// has. One such character in a file is a mistake where it stands; where two in five are none, the file was not meant.

/** Judged by its beginning. */
export function isText(text: string): boolean {
  const beginning = text.slice(0, judged);
  return beginning.length < fewest || (beginning.match(inNoText) ?? []).length * 5 < beginning.length * 2;
}

const judged = 4_096;
const fewest = 16;
/** Control characters but those that part words and lines, and what stands for bytes that are no UTF-8. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const inNoText = /[\u0000-\u0008\u000e-\u001f\u007f\ufffd]/g;
