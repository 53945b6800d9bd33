//>> because bits of one clock leave together and nothing fixes their order: a strobe decoded from them can pulse
//>> project {"strobes": ["load", "fetch"]}
module sequencer(input clk, input rst, output reg load, output reg fetch);
  reg [2:0] step;
  always @(posedge clk) if (rst) step <= 0; else step <= (step == 5) ? 3'd0 : step + 3'd1;
  always @* begin
    load = 0;
    fetch = 0;
    case (step)  //> step finding decoded-glitch possible information
      3'd2: load = 1;
      3'd4: fetch = 1;
    endcase
  end
endmodule
