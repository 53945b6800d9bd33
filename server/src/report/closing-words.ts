// Which words of the language close what others open (IEEE 1364-2005 and 1800-2017, Annex A).

export const closingWords: ReadonlyMap<string, readonly string[]> = new Map([
  ['module', ['endmodule']],
  ['macromodule', ['endmodule']],
  ['begin', ['end']],
  ['case', ['endcase']],
  ['casex', ['endcase']],
  ['casez', ['endcase']],
  ['fork', ['join', 'join_any', 'join_none']],
  ['function', ['endfunction']],
  ['task', ['endtask']],
  ['generate', ['endgenerate']],
  ['specify', ['endspecify']],
  ['primitive', ['endprimitive']],
  ['table', ['endtable']],
  ['interface', ['endinterface']],
  ['package', ['endpackage']],
  ['class', ['endclass']],
  ['program', ['endprogram']],
]);
