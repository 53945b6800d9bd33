// Generated designs for benchmarks: ordinary registers and logic, spread over modules of some forty lines or in one.

/** At least `lines` lines; module `top` instantiates the others. */
export function manyModules(lines: number): string {
  const count = Math.ceil(lines / (block(0).split('\n').length + 1));
  const modules = Array.from({ length: count }, (_, index) => block(index));
  const instances = Array.from(
    { length: count },
    (_, index) => `  block${index} u${index}(.clk(clk), .rst(rst), .d(d), .q(q[${index * 8 + 7}:${index * 8}]));`,
  );
  const top = `module top(input clk, input rst, input [7:0] d, output [${count * 8 - 1}:0] q);\n${instances.join('\n')}\nendmodule\n`;
  return `${modules.join('\n')}\n${top}`;
}

/** One module of at least `lines` lines: stages in a row, each of a register and its logic. */
export function oneModule(lines: number): string {
  const count = Math.ceil(lines / 8);
  const stages = Array.from({ length: count }, (_, index) => stage(index));
  return `module whole(input clk, input [7:0] d, output [7:0] q);
  wire [7:0] value0 = d;
${stages.join('\n')}
  assign q = value${count};
endmodule
`;
}

function stage(index: number): string {
  return `  // stage ${index}
  reg  [7:0] held${index};
  wire [7:0] mixed${index} = value${index} ^ 8'd${index % 251};
  always @(posedge clk)
    if (mixed${index}[0]) held${index} <= mixed${index};
    else held${index} <= value${index};
  wire [7:0] value${index + 1} = held${index};
`;
}

function block(index: number): string {
  const steps = Array.from(
    { length: 8 },
    (_, step) => `      3'd${step}: value <= value + d + 8'd${(index + step) % 256};`,
  );
  return `module block${index}(input clk, input rst, input [7:0] d, output [7:0] q);
  // block ${index}
  reg [2:0] state;
  reg [7:0] value;
  wire [7:0] mixed = (value ^ d) & {8{state[0]}};
  wire       ready = (state == 3'd5) | (mixed > 8'd17);

  always @(posedge clk or posedge rst)
    if (rst) begin
      state <= 3'd0;
      value <= 8'd0;
    end else begin
      state <= ready ? 3'd0 : state + 3'd1;
      case (state)
${steps.join('\n')}
        default: value <= mixed;
      endcase
    end

  reg [7:0] hold;
  always @(posedge clk)
    if (ready) hold <= mixed;
    else hold <= {hold[6:0], hold[7]};

  assign q = hold | value;
endmodule
`;
}
