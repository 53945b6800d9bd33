// Names as they can be read: characters that show nothing or turn the text around them are written out by their number,
// so that a name is never taken for another and never reorders the words beside it.

/**
 * An override U+202E in a name becomes the six characters `\u202E`. So does everything that Unicode counts among the
 * controls and formats (general categories Cc, Cf) and the separators of lines and paragraphs (Zl, Zp).
 */
export function visibleText(text: string): string {
  return text.replace(hidden, (character) => `\\u${numberOf(character).toString(16).toUpperCase().padStart(4, '0')}`);
}

const hidden = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu;

function numberOf(character: string): number {
  return character.codePointAt(0) ?? 0;
}
