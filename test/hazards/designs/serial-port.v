//>> top serial_port
//>> because a serial port of a small bus with queues on both sides, in the new style, with tabs and comments in another language
`timescale 1ns / 1ps
`default_nettype none

// Serielle Schnittstelle: 8 Datenbits, keine Parität, 1 Stoppbit – 日本語のコメントも可
module serial_port #(
	parameter integer CLOCK_HZ = 10_000_000,
	parameter integer BAUD     = 1_000_000,
	parameter DEPTH_BITS       = 2
) (
	input  wire       clk_i,
	input  wire       rst_n_i, //> rst_n_i finding reset-release
	input  wire       rx_i,
	output wire       tx_o,
	input  wire       we_i, re_i,
	input  wire [1:0] adr_i,
	input  wire [7:0] dat_i,
	output reg  [7:0] dat_o,  //> dat_o form mixed
	output wire       irq_o
);
	localparam integer DIVISOR = CLOCK_HZ / BAUD;

	wire [7:0] rx_byte, rx_head, tx_head;
	wire       rx_done, tx_busy, rx_empty, tx_empty, rx_full, tx_full;
	reg        irq_enable;   //> irq_enable clock clk_i rising, asynchronous rst_n_i low

	queue #(.WIDTH(8), .BITS(DEPTH_BITS)) rx_queue (
		.clk(clk_i), .rst_n(rst_n_i),
		.push(rx_done & ~rx_full), .pop(re_i & (adr_i == 2'd0)), .in(rx_byte),
		.out(rx_head), .empty(rx_empty), .full(rx_full)
	);
	queue #(8, DEPTH_BITS) tx_queue (
		clk_i, rst_n_i, we_i & adr_i == 2'd0, ~tx_busy & ~tx_empty, dat_i,
		tx_head, tx_empty, tx_full
	);
	receiver #(.DIVISOR(DIVISOR)) rx (.clk(clk_i), .rst_n(rst_n_i), .line(rx_i), .value(rx_byte), .done(rx_done));
	sender   #(.DIVISOR(DIVISOR)) tx (.clk(clk_i), .rst_n(rst_n_i), .start(~tx_empty), .value(tx_head),
	                                  .line(tx_o), .busy(tx_busy));

	always @(posedge clk_i or negedge rst_n_i)
		if (~rst_n_i)                    irq_enable <= 1'b0;
		else if (we_i && adr_i == 2'd2)  irq_enable <= dat_i[0];

	always @(*)
		case (adr_i)  //> adr_i finding decoded-glitch hint
			2'd0:    dat_o = rx_head;
			2'd1:    dat_o = {4'b0, tx_full, tx_empty, rx_full, rx_empty};
			2'd2:    dat_o = {7'b0, irq_enable};
			default: dat_o = 8'h00;
		endcase
	assign irq_o = irq_enable & ~rx_empty;
endmodule

module queue #(parameter WIDTH = 8, BITS = 4) (
	input  wire             clk, rst_n, push, pop,
	input  wire [WIDTH-1:0] in,
	output wire [WIDTH-1:0] out,
	output wire             empty, full
);
	reg [WIDTH-1:0] words [0:(1<<BITS)-1];
	reg [BITS:0]    head, tail;   //> head clock clk_i rising, asynchronous rst_n_i low | tail clock clk_i rising
	assign empty = head == tail;
	assign full  = head[BITS-1:0] == tail[BITS-1:0] && head[BITS] != tail[BITS];
	assign out   = words[tail[BITS-1:0]];
	always @(posedge clk)
		if (push) words[head[BITS-1:0]] <= in;
	always @(posedge clk, negedge rst_n)
		if (!rst_n) begin
			head <= 0;
			tail <= 0;
		end else begin
			if (push) head <= head + 1'b1;
			if (pop && !empty) tail <= tail + 1'b1;
		end
endmodule

module receiver #(parameter DIVISOR = 16) (
	input wire clk, rst_n, line,
	output reg [7:0] value,         //> value clock clk_i rising
	output reg done                 //> done clock clk_i rising
);
	reg [1:0] sync;                 //> sync clock clk_i rising
	reg [$clog2(DIVISOR)-1:0] wait_count; //> wait_count clock clk_i rising
	reg [3:0] bits_left;            //> bits_left clock clk_i rising
	wire level = sync[1];
	always @(posedge clk or negedge rst_n)
		if (!rst_n) begin
			sync <= 2'b11; wait_count <= 0; bits_left <= 0; value <= 0; done <= 0;
		end else begin
			sync <= {sync[0], line};
			done <= 0;
			if (bits_left == 0) begin
				if (!level) begin
					bits_left  <= 4'd9;
					wait_count <= DIVISOR + DIVISOR / 2 - 1 > DIVISOR - 1 ? DIVISOR / 2 : 0;
				end
			end else if (wait_count != DIVISOR - 1)
				wait_count <= wait_count + 1;
			else begin
				wait_count <= 0;
				bits_left  <= bits_left - 1;
				if (bits_left == 1) done <= level;
				else value <= {level, value[7:1]};
			end
		end
endmodule

module sender #(parameter DIVISOR = 16) (
	input wire clk, rst_n, start,
	input wire [7:0] value,
	output wire line,
	output wire busy
);
	reg [9:0] shift;                //> shift clock clk_i rising, start 1111111111
	reg [3:0] left;                 //> left clock clk_i rising
	reg [$clog2(DIVISOR)-1:0] wait_count; //> wait_count clock clk_i rising
	assign line = shift[0];
	assign busy = left != 0;
	always @(posedge clk or negedge rst_n)
		if (!rst_n) begin
			shift <= {10{1'b1}}; left <= 0; wait_count <= 0;
		end else if (!busy) begin
			if (start) begin shift <= {1'b1, value, 1'b0}; left <= 10; end
			wait_count <= 0;
		end else if (wait_count == DIVISOR - 1) begin
			wait_count <= 0; shift <= {1'b1, shift[9:1]}; left <= left - 1;
		end else wait_count <= wait_count + 1;
endmodule
`default_nettype wire
