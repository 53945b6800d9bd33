// The edge's way to the compiler of WebAssembly: hands the core a function, so that the core itself knows of none.
// Where code generation is refused, nothing is handed in and long runs are interpreted.

import type { CompiledModule, ModuleCompiler } from './cycles/compiled-module';

/** At once, which a program's worker may do and a page may not. */
export const compileModule: ModuleCompiler = (bytes) =>
  new WebAssembly.Instance(new WebAssembly.Module(bytes.slice())).exports as unknown as CompiledModule;
