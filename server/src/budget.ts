// Counts work for one construct and says when its limit has been reached. Limits count work, never
// time, and start full for each construct, so that reading again what changed and reading afresh agree.

/** Every limit by name with its default; `foretick.json` and `--limit` may set them. */
export const limitDefaults = {
  /** nested includes */
  includeDepth: 32,
  /** nested macro uses */
  macroDepth: 128,
  /** characters after macro expansion, per file */
  expandedCharacters: 16_000_000,
  /** nesting of statements, expressions and generate blocks; a walk can go no deeper, so only lower settings count */
  nesting: 400,
  /** instances below one another */
  depth: 64,
  /** instances in a design */
  instances: 100_000,
  /** nodes in a netlist */
  nodes: 4_000_000,
  /** turns of one loop or generate loop; calls of functions and tasks from one call */
  unroll: 65_536,
  /** bits in one vector or expression */
  width: 65_536,
  /** words in one memory */
  memoryWords: 4_194_304,
  /** settled steps followed to prove a period */
  period: 65_536,
  /** root periods followed by compiled code to prove a period */
  cycles: 67_108_864,
  /** states explored of one register group */
  states: 65_536,
  /** changes recorded in one preview */
  changes: 1_000_000,
  /** steps inside one instant before it is called oscillation */
  instantSteps: 10_000,
  /** findings of reading kept per file */
  complaints: 1_000,
} as const;

export type LimitName = keyof typeof limitDefaults;
export type Limits = Readonly<Record<LimitName, number>>;

export interface Budget {
  readonly name: LimitName;
  readonly limit: number;
  /** Uses up `amount`; false once more than `limit` has been asked for. */
  spend(amount: number): boolean;
  readonly exceeded: boolean;
}

export function budget(limits: Limits, name: LimitName): Budget {
  const limit = limits[name];
  let spent = 0;
  return {
    name,
    limit,
    spend(amount) {
      spent += amount;
      return spent <= limit;
    },
    get exceeded() {
      return spent > limit;
    },
  };
}
