// Designs that the cycle engine is measured on, each with the plain loop that a person would write for it: the state in
// variables, arrays for lanes, changes of what is watched pushed to a list. Both must tell the same.

export interface Told {
  /** Cycle, counted from 0, at which something watched changed; then what it changed to, one after the other. */
  readonly changes: number[];
  /** A number made of the state at the end. */
  readonly end: number;
}

export interface CycleDesign {
  readonly name: string;
  readonly text: string;
  /** At most 32 bits each. */
  readonly watched: readonly string[];
  /** A register of at most 53 bits that tells how the run ended. */
  readonly end: string;
  readonly loop: (cycles: number) => Told;
}

export const counterWithDecode: CycleDesign = {
  name: 'a 26-bit counter with decode',
  text: `module top(input clk, output lamp, output strobe);
  reg [25:0] count = 0;
  always @(posedge clk) count <= count + 26'd1;
  assign lamp = count[25];
  assign strobe = count[15:0] == 16'habcd;
endmodule`,
  watched: ['lamp', 'strobe'],
  end: 'count',
  loop(cycles) {
    const changes: number[] = [];
    let count = 0;
    let lamp = 0;
    let strobe = 0;
    for (let cycle = 0; cycle < cycles; cycle++) {
      count = (count + 1) & 0x3ffffff;
      const newLamp = count >>> 25;
      const newStrobe = (count & 0xffff) === 0xabcd ? 1 : 0;
      if (newLamp !== lamp) {
        lamp = newLamp;
        changes.push(cycle, lamp);
      }
      if (newStrobe !== strobe) {
        strobe = newStrobe;
        changes.push(cycle, strobe);
      }
    }
    return { changes, end: count };
  },
};

export const shiftRegisterWithCrc: CycleDesign = {
  name: 'an LFSR with a byte-wise CRC-32',
  text: `module top(input clk, output match);
  reg [15:0] lfsr = 16'hace1;
  reg [31:0] crc = 32'hffffffff;
  reg [31:0] next;
  integer i;
  always @* begin
    next = crc ^ {24'd0, lfsr[7:0]};
    for (i = 0; i < 8; i = i + 1)
      next = next[0] ? (next >> 1) ^ 32'hedb88320 : next >> 1;
  end
  always @(posedge clk) begin
    lfsr <= {lfsr[0] ^ lfsr[2] ^ lfsr[3] ^ lfsr[5], lfsr[15:1]};
    crc <= next;
  end
  assign match = crc[11:0] == 12'h5a5;
endmodule`,
  watched: ['match'],
  end: 'crc',
  loop(cycles) {
    const changes: number[] = [];
    let lfsr = 0xace1;
    let crc = 0xffffffff;
    let match = 0;
    for (let cycle = 0; cycle < cycles; cycle++) {
      let next = crc ^ (lfsr & 0xff);
      for (let i = 0; i < 8; i++) {
        if ((next & 1) !== 0) next = (next >>> 1) ^ 0xedb88320;
        else next >>>= 1;
      }
      const bit = (lfsr ^ (lfsr >> 2) ^ (lfsr >> 3) ^ (lfsr >> 5)) & 1;
      lfsr = (lfsr >> 1) | (bit << 15);
      crc = next >>> 0;
      const newMatch = (crc & 0xfff) === 0x5a5 ? 1 : 0;
      if (newMatch !== match) {
        match = newMatch;
        changes.push(cycle, match);
      }
    }
    return { changes, end: crc };
  },
};

const lanes = 16;
/** The accumulators have 40 bits, as those of signal processors: sums of 256 products without overflow. */
const wrap = 2 ** 40;

export const multiplyAccumulate: CycleDesign = {
  name: 'a four-stage, 16-lane multiply-accumulate',
  text: `module lane #(parameter [15:0] SEED = 1)(input clk, output reg [39:0] total);
  reg [15:0] a = SEED, b = ~SEED;
  reg [15:0] x = 0, y = 0;
  reg [31:0] product = 0;
  initial total = 0;
  always @(posedge clk) begin
    a <= a + 16'd40503;
    b <= b ^ {b[14:0], b[15]};
    x <= a;
    y <= b | 16'd1;
    product <= x * y;
    total <= total + product;
  end
endmodule
module top(input clk, output over);
  wire [39:0] total [0:15];
  genvar g;
  generate for (g = 0; g < 16; g = g + 1) begin : u
    lane #(.SEED(16'd1 + 16'd1000 * g)) l(.clk(clk), .total(total[g]));
  end endgenerate
  reg [43:0] sum = 0;
  always @(posedge clk) sum <= {4'd0, total[0]} + total[1] + total[2] + total[3] + total[4] + total[5] + total[6] + total[7]
    + total[8] + total[9] + total[10] + total[11] + total[12] + total[13] + total[14] + total[15];
  assign over = sum[43:40] == 4'hc;
endmodule`,
  watched: ['over'],
  end: 'sum',
  loop(cycles) {
    const changes: number[] = [];
    const a = Array.from({ length: lanes }, (_, lane) => (1 + 1000 * lane) & 0xffff);
    const b = a.map((seed) => ~seed & 0xffff);
    const x = new Array<number>(lanes).fill(0);
    const y = new Array<number>(lanes).fill(0);
    const product = new Array<number>(lanes).fill(0);
    const total = new Array<number>(lanes).fill(0);
    let sum = 0;
    let over = 0;
    for (let cycle = 0; cycle < cycles; cycle++) {
      let next = 0;
      for (let lane = 0; lane < lanes; lane++) {
        next += total[lane];
        total[lane] += product[lane];
        if (total[lane] >= wrap) total[lane] -= wrap;
        product[lane] = x[lane] * y[lane];
        x[lane] = a[lane];
        y[lane] = b[lane] | 1;
        a[lane] = (a[lane] + 40503) & 0xffff;
        b[lane] ^= ((b[lane] << 1) | (b[lane] >> 15)) & 0xffff;
      }
      sum = next;
      const newOver = Math.floor(sum / wrap) === 0xc ? 1 : 0;
      if (newOver !== over) {
        over = newOver;
        changes.push(cycle, over);
      }
    }
    return { changes, end: sum };
  },
};
