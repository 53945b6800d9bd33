// The binary form of WebAssembly modules as far as packing a grammar needs it: sections by id, vectors, numbers (WebAssembly
// Core 2.0, chapters 5.2 Values and 5.5 Modules). Knows no instruction.

export const ids = { type: 1, import: 2, function: 3, start: 8, dataCount: 12, code: 10, data: 11 };
/** The order in which a module holds its sections. Custom ones (0) stand first, where the loader looks for what it must know. */
const sectionOrder = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 12, 10, 11];

/** By id. @param {Uint8Array} module @returns {Map<number, Uint8Array[]>} */
export function readSections(module) {
  const sections = new Map();
  for (let at = 8; at < module.length; ) {
    const id = module[at];
    const { next, value } = readUnsigned(module, at + 1);
    sections.set(id, [...(sections.get(id) ?? []), module.subarray(next, next + value)]);
    at = next + value;
  }
  return sections;
}

/** @param {Map<number, Uint8Array[]>} sections @param {number} id */
export function contentOf(sections, id) {
  const [content] = sections.get(id) ?? [];
  if (content === undefined) throw new Error(`the module has no section ${id}`);
  return content;
}

/** @param {Map<number, Uint8Array[]>} sections */
export function writeModule(sections) {
  const header = [0x00, 0x61, 0x73, 0x6d, 1, 0, 0, 0];
  const parts = sectionOrder.flatMap((id) =>
    (sections.get(id) ?? []).flatMap((content) => [[id, ...unsigned(content.length)], content]),
  );
  return joined([header, ...parts]);
}

/** A number of items and their bytes. @param {Uint8Array} content */
export function readVector(content) {
  const { next, value } = readUnsigned(content, 0);
  return { count: value, items: content.subarray(next) };
}

/** @param {ReturnType<typeof readVector>} vector @param {readonly number[]} item */
export function vectorWith({ count, items }, item) {
  return joined([unsigned(count + 1), items, item]);
}

/** @param {Uint8Array} imports */
export function countImportedFunctions(imports) {
  const { count, items } = readVector(imports);
  let functions = 0;
  for (let item = 0, at = 0; item < count; item += 1) {
    for (let name = 0; name < 2; name += 1) {
      const { next, value } = readUnsigned(items, at);
      at = next + value;
    }
    if (items[at] === 0) functions += 1;
    at = behindImport(items, at);
  }
  return functions;
}

/** Function: its type. Table: element type and limits. Memory: limits. Global: type and whether it changes. */
function behindImport(/** @type {Uint8Array} */ items, /** @type {number} */ at) {
  switch (items[at]) {
    case 0:
      return readUnsigned(items, at + 1).next;
    case 1:
      return behindLimits(items, at + 2);
    case 2:
      return behindLimits(items, at + 1);
    default:
      return at + 3;
  }
}

/** @param {Uint8Array} items @param {number} at */
function behindLimits(items, at) {
  const least = readUnsigned(items, at + 1).next;
  return items[at] === 0 ? least : readUnsigned(items, least).next;
}

/** @param {Uint8Array} source @param {number} from */
export function readUnsigned(source, from) {
  let value = 0;
  let next = from;
  for (let scale = 1; ; scale *= 128) {
    const byte = source[next];
    next += 1;
    value += (byte & 127) * scale;
    if (byte < 128) return { value, next };
  }
}

/** @param {number} value @returns {number[]} */
export function unsigned(value) {
  return value < 128 ? [value] : [(value % 128) + 128, ...unsigned(Math.floor(value / 128))];
}

/** Of a number that is not negative: its last byte must not look as if it were. @param {number} value @returns {number[]} */
export function signed(value) {
  return value < 64 ? [value] : [(value % 128) + 128, ...signed(Math.floor(value / 128))];
}

/** @param {readonly number[]} body */
export function withLength(body) {
  return [...unsigned(body.length), ...body];
}

/** @param {readonly (Uint8Array | readonly number[])[]} parts @returns {Uint8Array<ArrayBuffer>} */
export function joined(parts) {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
