// Further designs for the cycle engine: random gates, a start that is unknown, words of 128 bits, a lamp divider.

/** `gates` gates of two inputs and `flops` flip-flops, wired at random from a seed; one output hears them all. */
export function randomGates(gates: number, flops: number): string {
  const next = randomFrom(gates + flops);
  const pool = Array.from({ length: flops }, (_, index) => `q[${index}]`);
  const pick = () => pool[Math.floor(next() * pool.length)];
  const operators = ['&', '|', '^', '~^'];
  const lines = Array.from({ length: gates }, (_, index) => {
    const operator = operators[Math.floor(next() * operators.length)];
    const line = `  assign w[${index}] = ${pick()} ${operator} ${pick()};`;
    pool.push(`w[${index}]`);
    return line;
  });
  const start = Array.from({ length: flops }, () => (next() < 0.5 ? '0' : '1')).join('');
  const data = Array.from({ length: flops }, (_, index) => {
    const own = `q[${(index + 1) % flops}]`;
    return `    q[${index}] <= ${own} ^ ${pick()};`;
  });
  return `module top(input clk, output parity);
  reg [${flops - 1}:0] q = ${flops}'b${start};
  wire [${gates - 1}:0] w;
${lines.join('\n')}
  always @(posedge clk) begin
${data.join('\n')}
  end
  assign parity = ^{q, w};
endmodule`;
}

function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

/** A row of registers behind a counter: known at the start, or only once the counter has come through. */
export function row(start: 'known' | 'unknown'): string {
  const initial = start === 'known' ? ' = 0' : '';
  return `module top(input clk, output lamp);
  reg [31:0] source = 0;
  reg [31:0] one${initial}, two${initial}, three${initial};
  always @(posedge clk) begin
    source <= source + 32'h9e3779b9;
    one <= source ^ (source >> 7);
    two <= one + source;
    three <= two ^ {one[15:0], one[31:16]};
  end
  assign lamp = three[31:20] == 12'hfed;
endmodule`;
}

export const wide = {
  text: `module top(input clk, output top);
  reg [127:0] sum = 0;
  reg [127:0] step = 128'h9e3779b97f4a7c15f39cc0605cedc835;
  always @(posedge clk) begin
    sum <= sum + step;
    step <= step ^ {step[120:0], step[127:121]};
  end
  assign top = sum[127:120] == 8'h3c;
endmodule`,
  loop(cycles: number): { readonly changes: number[]; readonly end: bigint } {
    const mask = (1n << 128n) - 1n;
    const changes: number[] = [];
    let sum = 0n;
    let step = 0x9e3779b97f4a7c15f39cc0605cedc835n;
    let top = 0;
    for (let cycle = 0; cycle < cycles; cycle++) {
      sum = (sum + step) & mask;
      step ^= ((step << 7n) | (step >> 121n)) & mask;
      const newTop = sum >> 120n === 0x3cn ? 1 : 0;
      if (newTop !== top) {
        top = newTop;
        changes.push(cycle, top);
      }
    }
    return { changes, end: sum };
  },
};

export const lamp = {
  text: `module top(input clk, output lamp);
  reg [25:0] count = 0;
  always @(posedge clk) count <= count + 26'd1;
  assign lamp = count[25];
endmodule`,
  loop(cycles: number): number[] {
    const changes: number[] = [];
    let count = 0;
    let lit = 0;
    for (let cycle = 0; cycle < cycles; cycle++) {
      count = (count + 1) & 0x3ffffff;
      const now = count >>> 25;
      if (now !== lit) {
        lit = now;
        changes.push(cycle, lit);
      }
    }
    return changes;
  },
};
