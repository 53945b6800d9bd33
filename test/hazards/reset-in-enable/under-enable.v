//>> because the data of a shift register are left out beside its count, each behind an enable of its own
module receiver(input clk, input clear, input shift, input bit_in, output reg [2:0] n, output reg [7:0] word);  //> clear finding reset-release
  always @(posedge clk or posedge clear)
    if (clear) n <= 0;
    else begin
      if (shift) n <= n + 1;
      if (shift) word <= {word[6:0], bit_in};  //> word finding reset-in-enable
    end
endmodule
