// Random designs for the cures, each from a seed: ripple chains of toggles and counters, gates before clocks, decodes of a
// counter or a state machine.

export interface RandomDesign {
  readonly text: string;
  readonly finding: string;
  /** The edge of clk that everything settles behind. */
  readonly edge: 'rising' | 'falling';
  /** Inputs of one bit, without clock and reset. */
  readonly inputs: readonly string[];
  readonly outputs: readonly string[];
  /** Outputs that a cure may make late. */
  readonly late: readonly string[];
}

interface Chance {
  below(count: number): number;
  of<Choice>(choices: readonly Choice[]): Choice;
}

function chanceFrom(seed: number): Chance {
  let state = (seed ^ 0x9e3779b9) >>> 0;
  const below = (count: number) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % count;
  };
  for (let turn = 0; turn < 8; turn++) below(2);
  return { below, of: (choices) => choices[below(choices.length)] };
}

const keywordOf = { rising: 'posedge', falling: 'negedge' } as const;

/** Two to five stages, on either edge each, some counters of two bits, some under an input, with or without a reset. */
export function rippleDesign(seed: number): RandomDesign {
  const chance = chanceFrom(seed);
  const edge = chance.of(['rising', 'falling'] as const);
  const hasReset = chance.below(2) === 1;
  const count = 2 + chance.below(4);
  const lines: string[] = [];
  const names: string[] = [];
  let clock = 'clk';
  for (let stage = 0; stage < count; stage++) {
    const name = `s${stage}`;
    const width = 1 + chance.below(2);
    const own = stage === 0 ? edge : chance.of(['rising', 'falling'] as const);
    const step =
      width === 2 ? `${name} <= ${name} ${chance.of(['+', '-'])} 1;` : `${name} <= ${chance.of(['~', '!'])}${name};`;
    const body = chance.below(4) === 0 ? `if (en) ${step}` : step;
    const process = hasReset
      ? `always @(${keywordOf[own]} ${clock} or posedge rst)\n    if (rst) ${name} <= 0;\n    else ${chance.below(2) === 0 ? body : `begin ${body} end`}`
      : `initial ${name} = 0;\n  always @(${keywordOf[own]} ${clock}) ${body}`;
    lines.push(`  output reg ${width === 2 ? '[1:0] ' : ''}${name}`, process);
    names.push(name);
    clock = width === 2 ? `${name}[${chance.below(2)}]` : name;
  }
  const ports = lines.filter((_, index) => index % 2 === 0);
  const processes = lines.filter((_, index) => index % 2 === 1);
  // A reader at the root edge, which hears all of them as they were before it.
  const text = `module ripple(input clk, rst, en,
${ports.join(',\n')},
  output reg [${2 * count - 1}:0] seen);
  ${processes.join('\n  ')}
  initial seen = 0;
  always @(${keywordOf[edge]} clk) seen <= {${names.join(', ')}};
endmodule
`;
  return { text, finding: 'ripple-chain', edge, inputs: ['en'], outputs: [...names, 'seen'], late: [] };
}

/** A gate of either kind, straight or inverted, as assignment, declaration or primitive, behind a control that may be sound. */
export function gatedDesign(seed: number): RandomDesign {
  const chance = chanceFrom(seed);
  const isAnd = chance.below(2) === 0;
  const isInverted = chance.below(2) === 1;
  const control = chance.of(['held', 'late', 'port'] as const);
  const name = control === 'port' ? 'en' : control;
  // While it is at this level the gate is closed.
  const closed = isAnd ? '!clk' : 'clk';
  const moves = chance.below(5) === 0 ? (isAnd ? 'posedge' : 'negedge') : isAnd ? 'negedge' : 'posedge';
  const parts = isAnd ? ['clk', name] : ['clk', `~${name}`];
  const expression = parts.join(isAnd ? ' & ' : ' | ');
  const primitive = `${isInverted ? 'n' : ''}${isAnd ? 'and' : 'or'} g1(g, clk, ${isAnd ? name : 'off'});`;
  const gate = chance.of([
    `wire g = ${isInverted ? `~(${expression})` : expression};`,
    `wire g;\n  assign g = ${isInverted ? `~(${expression})` : expression};`,
    `wire g, off = ~${name};\n  ${primitive}`,
  ]);
  // The edge of the gate that follows the end of its closed half.
  const edge = isAnd ? 'rising' : 'falling';
  const active = isInverted ? (isAnd ? 'falling' : 'rising') : edge;
  const text = `module gated(input clk, rst, en, d, output reg [1:0] n, output reg q);
  reg held, late;
  initial {late, n, q} = 0;
  always @* if (${closed}) held = en;
  always @(${moves} clk) late <= en;
  ${gate}
  always @(${keywordOf[active]} g) begin
    n <= n + 1;
    if (d) q <= ~q; // under a condition of its own
  end
endmodule
`;
  return { text, finding: 'gated-clock', edge, inputs: ['en', 'd'], outputs: ['n', 'q'], late: [] };
}

/** A counter or a machine of three bits; a decode that is one of several values, written in one of three ways. */
export function decodedDesign(seed: number): RandomDesign {
  const chance = chanceFrom(seed);
  const edge = chance.of(['rising', 'falling'] as const);
  const hasReset = chance.below(2) === 1;
  const home = chance.below(8);
  const table = Array.from({ length: 8 }, (_, state) => `      ${state}: s <= ${chance.below(8)};`).join('\n');
  const step = chance.of([
    's <= s + 1;',
    'if (go) s <= s - 1;',
    `if (s == ${chance.below(8)}) s <= ${home}; else s <= s + 1;`,
    `case (s)\n${table}\n    endcase`,
    `s <= {s[1:0], s[2] ^ ${chance.of(['go', "1'b1"])}};`,
  ]);
  const values = Array.from({ length: 1 + chance.below(3) }, () => chance.below(8));
  const hit = values.map((value) => `(s == ${value})`).join(' | ');
  const process = hasReset
    ? `always @(${keywordOf[edge]} clk or negedge rst)\n    if (!rst) s <= ${home};\n    else ${step}`
    : `initial s = ${home};\n  always @(${keywordOf[edge]} clk)\n    ${step}`;
  const [declared, decode] = chance.of([
    ['output y', `assign y = ${hit};`],
    ['output y', `wire inner = ${hit};\n  assign y = inner ^ s[${chance.below(3)}];`],
    ['output reg y', `always @* begin\n    y = 0;\n    if (${hit}) y = 1;\n  end`],
  ]);
  const text = `module decoded(input clk, rst, go, output reg [2:0] s, ${declared});
  ${process}
  ${decode}
endmodule
`;
  return { text, finding: 'decoded-glitch', edge, inputs: ['go'], outputs: ['s', 'y'], late: ['y'] };
}
