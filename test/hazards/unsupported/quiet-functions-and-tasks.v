//>> because functions, tasks and early exits are ways to write logic and registers (IEEE 1364-2005 10)
module functions_and_tasks #(parameter DEPTH = 12) (
    input clk, input rst, input [width(DEPTH) - 1:0] limit, input [7:0] request,
    output reg [width(DEPTH) - 1:0] count, output reg [2:0] granted, output reg any);
  function integer width;
    input integer value;
    begin
      value = value - 1;
      for (width = 0; value > 0; width = width + 1) value = value >> 1;
    end
  endfunction

  function automatic [3:0] ones(input [7:0] word);
    integer i;
    begin
      ones = 0;
      for (i = 0; i < 8; i = i + 1) ones = ones + word[i];
    end
  endfunction

  task first(input [7:0] wishes, output [2:0] index, output found);
    integer i;
    begin
      index = 0;
      found = 0;
      for (i = 0; i < 8; i = i + 1)
        if (wishes[i]) begin
          index = i;
          found = 1;
          disable first;
        end
    end
  endtask

  always @(posedge clk)
    if (rst) count <= 0;  //> count stage 1, synchronous rst high
    else if (ones(request) < limit) count <= count + 1;

  reg [2:0] index;
  reg found;
  always @* first(request, index, found);
  always @(posedge clk) begin
    granted <= index;  //> granted stage 1
    any <= found;      //> any stage 1
  end
endmodule
