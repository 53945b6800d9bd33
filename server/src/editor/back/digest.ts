// A short name for a long text: two texts of one digest are taken for the same. Tells the few versions of a document apart;
// keeps no secret. Two hashes of 32 bits side by side, FNV-1a (over UTF-16 units) and a polynomial one, and the length.

export function digestOf(text: string): string {
  let fnv = 0x811c9dc5;
  let polynomial = 0;
  for (let index = 0; index < text.length; index += 1) {
    const code = text.charCodeAt(index);
    fnv = Math.imul(fnv ^ code, 0x01000193);
    polynomial = (Math.imul(polynomial, 31) + code) | 0;
  }
  return [fnv >>> 0, polynomial >>> 0, text.length].map((part) => part.toString(36)).join('.');
}
