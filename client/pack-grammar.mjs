// Packs a grammar for shipping. A grammar's tables are one large data segment that is mostly zeros, and whoever loads it
// holds it three times over: the file, the compiler's copy, the parser's memory. Packed, the segment holds runs of zeros as
// their length, and a start function that is added to the module writes it out where the segment would have stood. What the
// memory holds afterwards is the same, byte for byte; a test proves it.
//
// Instructions are those of WebAssembly Core 2.0, chapter 5.4.

import {
  contentOf,
  countImportedFunctions,
  ids,
  joined,
  readSections,
  readUnsigned,
  readVector,
  signed,
  unsigned,
  vectorWith,
  withLength,
  writeModule,
} from './wasm-format.mjs';

/** Runs of zeros shorter than this are copied: a pair of numbers and two calls cost more than they save. */
const leastZeros = 16;
/** Each pair is one word: zeros in its lower half, bytes behind it in its upper. */
const longest = 0xffff;
const headLength = 4;

/**
 * @param {Uint8Array} module with one data segment, placed at an imported global
 * @returns {Uint8Array<ArrayBuffer>}
 */
export function packGrammar(module) {
  const sections = readSections(module);
  const { base, content } = readData(contentOf(sections, ids.data));
  contentOf(sections, ids.dataCount);
  if (sections.has(ids.start)) throw new Error('the module has a start function of its own');
  const packed = packZeros(content);
  const types = readVector(contentOf(sections, ids.type));
  const functions = readVector(contentOf(sections, ids.function));
  const bodies = readVector(contentOf(sections, ids.code));
  const start = countImportedFunctions(contentOf(sections, ids.import)) + functions.count;
  sections.set(ids.type, [vectorWith(types, [0x60, 0, 0])]);
  sections.set(ids.function, [vectorWith(functions, unsigned(types.count))]);
  sections.set(ids.start, [Uint8Array.from(unsigned(start))]);
  sections.set(ids.code, [vectorWith(bodies, withLength(unpacker(base, content.length, packed.length)))]);
  // One segment, passive: it stands nowhere until the start function asks for it.
  sections.set(ids.data, [joined([[1, 1, ...unsigned(packed.length)], packed])]);
  return writeModule(sections);
}

/** @param {Uint8Array} content */
function packZeros(content) {
  const parts = [];
  for (let at = 0; at < content.length; ) {
    const start = endOfZeros(content, at);
    const end = startOfZeros(content, start);
    const zeros = start - at;
    const count = end - start;
    parts.push(Uint8Array.of(zeros & 255, zeros >> 8, count & 255, count >> 8), content.subarray(start, end));
    at = end;
  }
  const packed = joined(parts);
  proveInPlace(packed, content.length);
  return packed;
}

/** @param {Uint8Array} content @param {number} from */
function endOfZeros(content, from) {
  let at = from;
  while (at < content.length && at - from < longest && content[at] === 0) at += 1;
  return at;
}

/** Where the next long run of zeros begins. @param {Uint8Array} content @param {number} from */
function startOfZeros(content, from) {
  const limit = Math.min(content.length, from + longest);
  let zeros = 0;
  for (let at = from; at < limit; at += 1) {
    zeros = content[at] === 0 ? zeros + 1 : 0;
    if (zeros === leastZeros) return at + 1 - leastZeros;
  }
  return limit;
}

/**
 * The packed bytes lie at the end of the place that they fill: what is written must never reach what is still to be read.
 * @param {Uint8Array} packed @param {number} length
 */
function proveInPlace(packed, length) {
  let to = 0;
  let from = length - packed.length;
  if (from < 0) throw new Error('the grammar cannot be unpacked in its place');
  for (let at = 0; at < packed.length; ) {
    const count = packed[at + 2] + 256 * packed[at + 3];
    to += packed[at] + 256 * packed[at + 1];
    from += headLength;
    if (to > from) throw new Error('the grammar cannot be unpacked in its place');
    to += count;
    from += count;
    at += headLength + count;
  }
}

/**
 * The body of the start function: copies the packed bytes to the end of the place, then walks them to its front.
 * @param {readonly number[]} base the instruction that gives where the segment stands
 * @param {number} length of what is unpacked
 * @param {number} packed length of what is packed
 */
function unpacker(base, length, packed) {
  const [to, from, end, zeros, count] = [0, 1, 2, 3, 4];
  const get = (/** @type {number} */ local) => [0x20, local];
  const set = (/** @type {number} */ local) => [0x21, local];
  const tee = (/** @type {number} */ local) => [0x22, local];
  const constant = (/** @type {number} */ value) => [0x41, ...signed(value)];
  const add = 0x6a;
  return [
    [1, 5, 0x7f], // five locals of type i32
    [...base, ...tee(to), ...constant(length), add, ...tee(end), ...constant(packed), 0x6b, ...tee(from)],
    [...constant(0), ...constant(packed), 0xfc, 8, 0, 0], // memory.init: the segment, to `from`
    [0x03, 0x40], // loop
    [...get(from), 0x28, 0, 0, ...tee(zeros), ...constant(16), 0x76, ...set(count)], // i32.load, i32.shr_u
    [...get(zeros), ...constant(longest), 0x71, ...set(zeros)], // i32.and
    [...get(to), ...constant(0), ...get(zeros), 0xfc, 11, 0], // memory.fill
    [...get(to), ...get(zeros), add, ...set(to)],
    [...get(from), ...constant(headLength), add, ...set(from)],
    [...get(to), ...get(from), ...get(count), 0xfc, 10, 0, 0], // memory.copy
    [...get(to), ...get(count), add, ...set(to)],
    [...get(from), ...get(count), add, ...tee(from), ...get(end), 0x49, 0x0d, 0], // i32.lt_u, br_if
    [0x0b, 0x0b], // end of the loop, of the function
  ].flat();
}

/** The one segment: `0`, the instruction that gives its place, `end`, its bytes. @param {Uint8Array} content */
function readData(content) {
  const [count, form, getGlobal] = content;
  const index = readUnsigned(content, 3);
  if (count !== 1 || form !== 0 || getGlobal !== 0x23 || content[index.next] !== 0x0b)
    throw new Error('the module holds other data than one segment at a global');
  const length = readUnsigned(content, index.next + 1);
  return { base: [0x23, ...unsigned(index.value)], content: content.subarray(length.next, length.next + length.value) };
}
