// The binary form of a WebAssembly module (W3C WebAssembly Core Specification, chapter 5), as far as the cycle engine
// writes it: one memory, one function without results, plain numeric and control instructions.

export interface ByteWriter {
  byte(...values: readonly number[]): void;
  /** LEB128. */
  unsigned(value: number): void;
  signed(value: bigint): void;
  append(bytes: Uint8Array): void;
  bytes(): Uint8Array;
}

export function createBytes(): ByteWriter {
  let buffer = new Uint8Array(1024);
  let length = 0;

  function reserve(count: number): void {
    if (length + count <= buffer.length) return;
    const larger = new Uint8Array(Math.max(2 * buffer.length, length + count));
    larger.set(buffer.subarray(0, length));
    buffer = larger;
  }

  const writer: ByteWriter = {
    byte(...values) {
      reserve(values.length);
      for (const value of values) buffer[length++] = value;
    },
    unsigned(value) {
      let rest = value;
      while (rest > 0x7f) {
        writer.byte((rest & 0x7f) | 0x80);
        rest >>>= 7;
      }
      writer.byte(rest);
    },
    signed(value) {
      let rest = value;
      for (;;) {
        const low = Number(rest & 0x7fn);
        rest >>= 7n;
        const isLast = (rest === 0n && low < 0x40) || (rest === -1n && low >= 0x40);
        writer.byte(isLast ? low : low | 0x80);
        if (isLast) return;
      }
    },
    append(bytes) {
      reserve(bytes.length);
      buffer.set(bytes, length);
      length += bytes.length;
    },
    bytes: () => buffer.slice(0, length),
  };
  return writer;
}

export const i32 = 0x7f;
export const i64 = 0x7e;

export interface ModuleParts {
  /** Pages of 64 KiB. */
  readonly pages: number;
  /** How many locals of 32 and then of 64 bits the function has besides its one parameter, of 32 bits. */
  readonly locals: readonly [narrow: number, wide: number];
  /** Instructions, without the final `end`. */
  readonly code: Uint8Array;
}

/** Exports `memory` and `run`. */
export function moduleBytes({ code, locals, pages }: ModuleParts): Uint8Array {
  const all = createBytes();
  all.byte(0x00, 0x61, 0x73, 0x6d, 0x01, 0x00, 0x00, 0x00);
  section(all, 1, (out) => out.byte(1, 0x60, 1, i32, 0));
  section(all, 3, (out) => out.byte(1, 0));
  section(all, 5, (out) => {
    out.byte(1, 0);
    out.unsigned(pages);
  });
  section(all, 7, (out) => {
    out.byte(2);
    name(out, 'memory');
    out.byte(2, 0);
    name(out, 'run');
    out.byte(0, 0);
  });
  section(all, 10, (out) => {
    const body = createBytes();
    body.byte(2);
    body.unsigned(locals[0]);
    body.byte(i32);
    body.unsigned(locals[1]);
    body.byte(i64);
    body.append(code);
    body.byte(0x0b);
    out.byte(1);
    sized(out, body);
  });
  return all.bytes();
}

function section(all: ByteWriter, id: number, write: (out: ByteWriter) => void): void {
  const content = createBytes();
  write(content);
  all.byte(id);
  sized(all, content);
}

function sized(out: ByteWriter, content: ByteWriter): void {
  const bytes = content.bytes();
  out.unsigned(bytes.length);
  out.append(bytes);
}

function name(out: ByteWriter, text: string): void {
  out.unsigned(text.length);
  out.byte(...Array.from(text, (character) => character.charCodeAt(0)));
}
