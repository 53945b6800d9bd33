// Parcels on a belt: a gate is set by the first digits of the code that the reader sends bit by bit, least first.
`define RESET_BLOCK(list) if (!rst_n) begin list end else

module code_reader (
  input  logic       clk, rst_n,
  input  logic       bit_in, bit_valid,
  output logic [7:0] code,
  output logic       complete
);
  logic [2:0] count;
  always_ff @(posedge clk, negedge rst_n)
    `RESET_BLOCK(code <= 8'h00; count <= 3'd0; complete <= 1'b0;)
    begin
      complete <= bit_valid && count == 3'd7;
      if (bit_valid) begin
        code <= {bit_in, code[7:1]};
        count <= count + 3'd1;
      end
    end
endmodule

module gate_table (input logic [7:0] code, output logic [3:0] gates);
  function automatic logic is_local(input logic [7:0] value);
    if (value[7:4] == 4'h3) is_local = 1'b1;
    else is_local = value == 8'h7f;
  endfunction
  task automatic open_only(input int which);
    gates = 4'b0000;
    gates[which] = 1'b1;
  endtask
  always_comb begin
    gates = 4'b0000;
    unique casez (code)
      8'b0000_????: open_only(0);
      8'b0001_????, 8'b0010_????: open_only(1);
      8'b01??_????: begin
        open_only(2);
        if (is_local(code)) gates[3] = 1'b1;
      end
      default: if (is_local(code)) open_only(3);
    endcase
  end
endmodule

module parcel_sorter #(parameter int DELAY = 20) (
  input  logic       clk, rst_n, bit_in, bit_valid,
  output logic [3:0] gate_drive,
  output logic [7:0] sorted
);
  wire [7:0] code;
  wire complete;
  wire [3:0] gates;
  reg [4:0] timer;
  code_reader reader (.*);
  gate_table gate_table_of_code (.code(code), .gates(gates));

  initial begin
    timer = 0;
    sorted = 0;
  end

  always @(posedge clk or negedge rst_n) begin
    if (!rst_n) begin
      timer <= 0;
      gate_drive <= 0;
    end
    else if (complete) begin
      timer <= DELAY;
      gate_drive <= gates;
    end
    else if (timer != 0) timer <= timer - 1;
    else gate_drive <= 0;
  end

  always @(posedge clk) if (complete) sorted <= sorted + 1;
endmodule
