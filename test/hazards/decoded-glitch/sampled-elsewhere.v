//>> because another clock may sample a decode at any time, also while it passes a wrong value
module report_full(input fill_clk, input read_clk, input fill, output reg full);
  reg [2:0] level;
  reg first;
  initial {level, first, full} = 0;
  always @(posedge fill_clk) if (fill) level <= level + 1;
  wire top = &level;  //> level finding decoded-glitch possible information
  always @(posedge read_clk) begin
    first <= top;  //> first finding logic-before-synchronizer warning
    full <= first;
  end
endmodule
