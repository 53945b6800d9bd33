//>> because nets have drivers one by one, however many there are
module array_of_nets(input [9:0] place, input [15:0] in, output [15:0] out);
  wire [15:0] lanes [0:1023];  //> lanes finding limit-reached
  assign lanes[0] = in;
  assign out = lanes[place];
endmodule
