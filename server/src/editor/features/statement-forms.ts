// Keywords that are proposed where an item or a statement may begin, some with the form that follows them.

export interface StatementForm {
  readonly word: string;
  /** In the protocol's syntax (3.17, Snippet Syntax); null for the word alone. */
  readonly snippet: string | null;
}

/** Between units. */
export const outerForms: readonly StatementForm[] = [
  form('module', 'module «1:name»(\n\tinput «2:clk»\n);\n\t$0\nendmodule'),
  ...words('primitive package interface import parameter'),
];

/** Inside a unit. */
export const innerForms: readonly StatementForm[] = [
  form('always', 'always @(posedge «1:clk») begin\n\t$0\nend'),
  form('case', 'case («1:value»)\n\t«2:1»: $3;\n\tdefault: $0;\nendcase'),
  form('if', 'if («1:condition») $0'),
  form('for', 'for («1:i» = 0; $1 < «2:count»; $1 = $1 + 1) begin\n\t$0\nend'),
  form('begin', 'begin\n\t$0\nend'),
  ...words('assign wire reg logic integer genvar parameter localparam initial generate function task else'),
  ...words('end endmodule endcase endgenerate endfunction endtask always_ff always_comb always_latch'),
];

/** `«1:clk»`: the first place to fill in, which holds `clk` until then. */
function form(word: string, written: string): StatementForm {
  return { word, snippet: written.replace(/«(\d:\w+)»/g, '$${$1}') };
}

function words(list: string): readonly StatementForm[] {
  return list.split(' ').map((word) => ({ word, snippet: null }));
}
