// Generated designs for benchmarks: ordinary registers and logic, spread over modules of about forty lines.

/** At least `lines` lines; module `top` instantiates the others. */
export function manyModules(lines: number): string {
  const count = Math.ceil(lines / 40);
  const modules = Array.from({ length: count }, (_, index) => block(index));
  const instances = Array.from(
    { length: count },
    (_, index) => `  block${index} u${index}(.clk(clk), .rst(rst), .d(d), .q(q[${index * 8 + 7}:${index * 8}]));`,
  );
  const top = `module top(input clk, input rst, input [7:0] d, output [${count * 8 - 1}:0] q);\n${instances.join('\n')}\nendmodule\n`;
  return `${modules.join('\n')}\n${top}`;
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
