// A packed grammar is smaller and leaves the parser's memory as the grammar itself does, whatever its data hold.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { packGrammar } from '../../client/pack-grammar.mjs';

const grammar = readFileSync(
  createRequire(import.meta.url).resolve('tree-sitter-systemverilog/tree-sitter-systemverilog.wasm'),
);

/** Where the loader places the data; memory around it is not zero. */
const base = 65_536;
const around = 0xa5;

/** What memory holds once the module stands in it. */
function memoryWith(bytes: Uint8Array<ArrayBuffer>, pages: number): Buffer {
  const memory = new WebAssembly.Memory({ initial: pages });
  new Uint8Array(memory.buffer).fill(around);
  const module = new WebAssembly.Module(bytes);
  const given: WebAssembly.ModuleImports = {
    memory,
    __memory_base: new WebAssembly.Global({ value: 'i32' }, base),
    __table_base: new WebAssembly.Global({ value: 'i32' }, 0),
    __stack_pointer: new WebAssembly.Global({ value: 'i32', mutable: true }, base),
    __indirect_function_table: new WebAssembly.Table({ initial: 64, element: 'anyfunc' }),
  };
  new WebAssembly.Instance(module, { env: given });
  return Buffer.from(memory.buffer);
}

/** The least module that a grammar's form allows: one function, and data at the imported base. */
function moduleWith(data: readonly number[]): Uint8Array<ArrayBuffer> {
  const size = (value: number) => [(value & 127) | 128, ((value >> 7) & 127) | 128, value >> 14];
  const text = (name: string) => [name.length, ...Buffer.from(name)];
  const section = (id: number, content: readonly number[]) => [id, ...size(content.length), ...content];
  const imports = [2, ...text('env'), ...text('memory'), 2, 0, 1, ...text('env'), ...text('__memory_base'), 3, 0x7f, 0];
  return Uint8Array.from([
    ...[0x00, 0x61, 0x73, 0x6d, 1, 0, 0, 0],
    ...section(1, [1, 0x60, 0, 0]),
    ...section(2, imports),
    ...section(3, [1, 0]),
    ...section(12, [1]),
    ...section(10, [1, 2, 0, 0x0b]),
    ...section(11, [1, 0, 0x23, 0, 0x0b, ...size(data.length), ...data]),
  ]);
}

describe('a packed grammar', () => {
  it('is less than a third as long and unpacks to the same memory', () => {
    const packed = packGrammar(grammar);
    expect(packed.length).toBeLessThan(grammar.length / 3);
    expect(memoryWith(packed, 400).equals(memoryWith(grammar, 400))).toBe(true);
  });

  it('whatever the data hold', () => {
    const zeros = fc.integer({ min: 16, max: 70_000 }).map((count) => new Array<number>(count).fill(0));
    const bytes = fc.array(fc.integer({ min: 0, max: 3 }), { maxLength: 60 });
    const pieces = fc.array(fc.oneof(zeros, bytes), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(pieces, (parts) => {
        // Behind enough zeros there is room to unpack in place: a grammar's tables have far more.
        const data = [...new Array<number>(100).fill(0), ...parts.flat(), ...new Array<number>(20).fill(0)];
        const module = moduleWith(data);
        expect(memoryWith(packGrammar(module), 40).equals(memoryWith(module, 40))).toBe(true);
      }),
      { numRuns: 100, seed: 20261125 },
    );
  });

  it('is refused where the form is another', () => {
    expect(() => packGrammar(packGrammar(grammar))).toThrow(/other data/);
    const dense = Array.from({ length: 200 }, () => 7);
    expect(() => packGrammar(moduleWith(dense))).toThrow(/in its place/);
  });
});
