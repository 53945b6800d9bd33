import { expect, it } from 'vitest';
import { filesForSignature, signatureHelp } from '../../../server/src/editor/features/signature-help';
import { document, open, run } from './caret';
import { viewOf } from './workspace-of';

const child = 'module child #(parameter W = 1, D = 2)(input clk, output [W-1:0] y);\nendmodule\n';

/** The label, the part of it that is meant in brackets. */
async function helped(line: string): Promise<string | null> {
  const { caret, study, text } = await open(
    `module m(input clk);\n function [3:0] f(input [3:0] now, input up); f = now; endfunction\n task t; input a; output b; b = a; endtask\n ${line}\nendmodule\n`,
  );
  const further = run(filesForSignature(study, document, caret));
  const files = { [document]: text, 'file:///project/child.v': child };
  const help = run(signatureHelp(study, document, caret, await viewOf(files, further ?? { kind: 'units', names: [] })));
  if (help === null) return null;
  const [{ label, parameters = [] }] = help.signatures;
  const [start, end] = parameters[help.activeParameter ?? 0]?.label ?? [0, 0];
  return `${label.slice(0, Number(start))}<${label.slice(Number(start), Number(end))}>${label.slice(Number(end))}`;
}

it('of an instance are its ports, by order and by name', async () => {
  expect(await helped('child u(/*here*/')).toBe('child(<input clk>, output [W-1:0] y)');
  expect(await helped('child u(clk, /*here*/);')).toBe('child(input clk, <output [W-1:0] y>)');
  expect(await helped('child u(.y(/*here*/')).toBe('child(input clk, <output [W-1:0] y>)');
  expect(await helped('child #(2) u(.y(), .clk(/*here*/')).toBe('child(<input clk>, output [W-1:0] y)');
});

it('of an instance are its parameters', async () => {
  expect(await helped('child #(/*here*/')).toBe('child #(<W = 1>, D = 2)');
  expect(await helped('child #(1, /*here*/) u();')).toBe('child #(W = 1, <D = 2>)');
});

it('of a function or task are its arguments, the innermost call first', async () => {
  expect(await helped('wire [3:0] w = f(/*here*/')).toBe('f(<input [3:0] now>, input up)');
  expect(await helped('wire [3:0] w = f(f(1, 0), /*here*/);')).toBe('f(input [3:0] now, <input up>)');
  expect(await helped('wire [3:0] w = f({1, 2}, (3 + /*here*/4));')).toBe('f(input [3:0] now, <input up>)');
  expect(await helped('initial t(/*here*/);')).toBe('t(<input a>, output b)');
});

it('there is none elsewhere', async () => {
  expect(await helped('wire w = (/*here*/')).toBeNull();
  expect(await helped('unknown u(/*here*/')).toBeNull();
  expect(await helped('initial $display(/*here*/')).toBeNull();
  expect(await helped('and #(/*here*/2) (w, clk);')).toBeNull();
});
