// What a compiler of WebAssembly bytes is to the engine: a function that is handed in.

/** Makes a module of these bytes and an instance of it, without imports. */
export type ModuleCompiler = (bytes: Uint8Array) => CompiledModule;

export interface CompiledModule {
  readonly memory: { readonly buffer: ArrayBufferLike };
  readonly run: (periods: number) => void;
}
