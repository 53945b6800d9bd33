// Small circuits around one expression, and the value that the report or the waves give for it.

import { reportOf, valueAt } from '../tools/report-of';

/** What a register of `width` bits holds at the start after `initial r = EXPRESSION`: the constant evaluator's answer. */
export async function initialValue(width: number, expression: string, declarations = ''): Promise<string> {
  const text = `module m(input c, output reg [${width - 1}:0] r);
    ${declarations}
    initial r = ${expression};
    always @(posedge c) r <= r;
  endmodule`;
  const report = await reportOf([{ path: 'm.v', text }]);
  return report.registers.filter(({ signal }) => signal === 'r')[0].start;
}

/** What a parameter of `width` bits is: digits, where z is told from x. A register's start value tells only x. */
export async function parameterValue(width: number, expression: string): Promise<string> {
  const text = `module m(input c, output y); parameter [${width - 1}:0] p = ${expression}; assign y = c; endmodule`;
  const { parameters } = await reportOf([{ path: 'm.v', text }]);
  return parameters.p;
}

/** What `integer` holds after the assignment, as a number. */
export async function integerValue(expression: string, declarations = ''): Promise<number> {
  return Number(BigInt.asIntN(32, BigInt(`0b${await initialValue(32, expression, declarations)}`)));
}

/** Inputs by name: a sized Verilog constant each. The settled value of an output `y` of `width` bits in the netlist. */
export async function netlistValue(
  width: number,
  expression: string,
  inputs: Readonly<Record<string, string>>,
): Promise<string> {
  const ports = Object.entries(inputs).map(([name, value]) => `input ${rangeOf(value)} ${name}`);
  const text = `module m(${ports.join(', ')}, output [${width - 1}:0] y); assign y = ${expression}; endmodule`;
  return valueAt([{ path: 'm.v', text }], 'y', 0, { project: JSON.stringify({ inputs }) });
}

function rangeOf(constant: string): string {
  const [, width, signed] = /^(\d+)'(s?)/.exec(constant) ?? ['', '1', ''];
  return `${signed === 's' ? 'signed ' : ''}[${Number(width) - 1}:0]`;
}
