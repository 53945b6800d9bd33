import { CodeActionKind } from 'vscode-languageserver';
import { describe, expect, it } from 'vitest';
import { codeActions } from '../../../server/src/editor/features/cures';
import { readyParser } from '../../tools/parser';
import { document, open, run } from './caret';

const ripple = `module two(input clk, output reg [1:0] q);
  initial q = 0;
  always @(negedge clk) q[0] <= ~q[0];
  always @(negedge /*here*/q[0]) q[1] <= ~q[1];
endmodule
`;

async function actionsOf(marked: string, only?: readonly string[]) {
  const { caret: position, study } = await open(marked);
  const range = { start: position, end: position };
  const diagnostics = [{ code: 'ripple-chain', range, message: 'shown' }];
  const context = only === undefined ? { diagnostics } : { diagnostics, only };
  return run(codeActions(study, document, range, context, await readyParser()));
}

describe('quick fixes', () => {
  it('are cures that hold, with what differs afterwards in the title', async () => {
    const [action, ...others] = await actionsOf(ripple);
    expect(others).toEqual([]);
    expect(action.title).toBe(
      'Clock all of them from clk, each enabled by those before it (all of them follow the edge of clk together; what samples one of them at that edge now reads the value from before it)',
    );
    expect(action.kind).toBe(CodeActionKind.QuickFix);
    expect(action.diagnostics?.map(({ code }) => code)).toEqual(['ripple-chain']);
    const edits = action.edit?.changes?.[document] ?? [];
    expect(edits.map(({ newText }) => newText).sort()).toEqual(['if (q[0]) ', 'negedge clk']);
  });

  it('are none elsewhere, for other kinds of action, and where what was tried does not hold', async () => {
    expect(await actionsOf(ripple.replace('/*here*/', '').replace('initial', '/*here*/initial'))).toEqual([]);
    expect(await actionsOf(ripple, [CodeActionKind.Refactor])).toEqual([]);
    expect(await actionsOf(ripple, [CodeActionKind.QuickFix])).toHaveLength(1);
    const late = `module m(input clk, d, en, output reg q);
  reg late = 0;
  /*here*/wire g = clk & late;
  always @(posedge clk) late <= en;
  always @(posedge g) q <= d;
endmodule`;
    expect(await actionsOf(late)).toEqual([]);
  });

  it('ask in the title for what only a person can want', async () => {
    const mixed = `module m(input clk, d, e, output reg t, u, w);
  always @(posedge clk) begin /*here*/t = d; u <= t & e; end
  always @(posedge clk) w <= t;
endmodule`;
    const [action, ...others] = await actionsOf(mixed);
    expect(others).toEqual([]);
    expect(action.title).toContain('; is it wanted that the read of t in line 2 comes one period later?)');
  });
});
