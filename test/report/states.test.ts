// States of registers from text: what is reached with free inputs, by which condition, under which name, and what becomes
// of the values that are left over. Each circuit is worked out by hand.
import { describe, expect, it } from 'vitest';
import type { PreviewStates } from '../../server/src/report/preview-data';
import { type ReportOptions, studyOf, toEnd } from '../tools/report-of';

async function statesOf(text: string, name: string, options: ReportOptions = {}): Promise<PreviewStates> {
  const all = toEnd((await studyOf([{ path: 'm.v', text }], options)).states());
  const found = all.find(({ registers }) => registers.includes(name));
  if (found === undefined)
    throw new Error(`no states of ${name}: ${all.map(({ registers }) => registers.join(' ')).join(', ')}`);
  return found;
}

/** `IDLE: RUN when go, IDLE when not go` for each state that is reached. */
function stepsText({ states, unused }: PreviewStates): readonly string[] {
  const names = new Map([...states, ...unused].map(({ name, value }) => [value, name ?? value]));
  return states.map(({ next, value }) => {
    const ways = next.map(({ to, when }) => `${names.get(to)}${when === '' ? '' : ` when ${when}`}`);
    return `${names.get(value)}: ${ways.join(', ')}`;
  });
}

const fatesText = ({ unused }: PreviewStates) => unused.map(({ name, value, words }) => `${name ?? value}: ${words}`);

describe('a controller with one input', () => {
  const controller = (last: string) => `module m(input clk, rst, go, stop, output busy);
    localparam IDLE = 2'd0, RUN = 2'd1, REST = 2'd2, WIDTH = 2;
    reg [WIDTH-1:0] state;
    assign busy = state == RUN;
    always @(posedge clk)
      if (rst) state <= IDLE;
      else case (state)
        IDLE: if (go) state <= RUN;
        RUN: if (stop) state <= REST;
        REST: state <= IDLE;
        ${last}
      endcase
  endmodule`;

  it('goes from state to state by the conditions as written, in the names of the text', async () => {
    const states = await statesOf(controller('default: state <= IDLE;'), 'state[1:0]');
    expect(stepsText(states)).toEqual([
      'IDLE: RUN when go, IDLE when not go',
      'RUN: REST when stop, RUN when not stop',
      'REST: IDLE',
    ]);
    expect(states).toMatchObject({ method: 'followed', start: '0', statesTotal: 3, unusedTotal: 1 });
  });

  it('does not take a width for the name of a value', async () => {
    const states = await statesOf(controller('default: state <= IDLE;'), 'state[1:0]');
    expect(states.states.map(({ name }) => name)).toEqual(['IDLE', 'RUN', 'REST']);
  });

  it('comes back from the value left over where the text leads it back, and stays where it does not', async () => {
    expect(fatesText(await statesOf(controller('default: state <= IDLE;'), 'state[1:0]'))).toEqual([
      '3: returns within 1 edge',
    ]);
    expect(fatesText(await statesOf(controller(''), 'state[1:0]'))).toEqual(['3: never returns']);
    expect(fatesText(await statesOf(controller('default: if (go) state <= IDLE;'), 'state[1:0]'))).toEqual([
      '3: returns by some input',
    ]);
  });

  it('does not take a step that a held input never allows', async () => {
    const project = JSON.stringify({ inputs: { stop: '0' } });
    const states = await statesOf(controller('default: state <= IDLE;'), 'state[1:0]', { project });
    expect(stepsText(states)).toEqual(['IDLE: RUN when go, IDLE when not go', 'RUN: RUN']);
  });
});

describe('what other registers decide', () => {
  const timed = (load: string) => `module m(input clk, rst, go, output on);
    localparam OFF = 2'd0, ON = 2'd1, LATE = 2'd2;
    reg [1:0] state;
    reg [2:0] ticks;
    assign on = state == ON;
    always @(posedge clk) if (rst) begin state <= OFF; ticks <= 0; end
      else case (state)
        OFF: if (go) begin state <= ON; ticks <= ${load}; end
        ON: if (ticks == 3'd7) state <= LATE; else if (ticks == 3'd0) state <= OFF; else ticks <= ticks - 3'd1;
        default: state <= OFF;
      endcase
  endmodule`;

  it('is followed with it: a count that never is 7 never makes it late', async () => {
    const states = await statesOf(timed("3'd5"), 'state[1:0]');
    expect(states.method).toBe('followed');
    expect(stepsText(states)).toEqual([
      'OFF: ON when go, OFF when not go',
      "ON: OFF when ticks == 3'd0, ON when not (ticks == 3'd7) and not (ticks == 3'd0)",
    ]);
    expect(fatesText(states)[0]).toBe('LATE: returns within 1 edge');
  });

  it('and one that can be 7 does', async () => {
    const states = await statesOf(timed("3'd7"), 'state[1:0]');
    expect(states.states.map(({ name }) => name)).toEqual(['OFF', 'ON', 'LATE']);
  });

  it('is left open where it has another clock, which is said', async () => {
    const text = `module m(input clk, slow, output reg [1:0] q);
      reg [1:0] s = 0;
      initial q = 0;
      always @(posedge slow) s <= s + 2'd1;
      always @(posedge clk) if (s == 2'd3) q <= (q == 2'd2) ? 2'd0 : q + 2'd1;
    endmodule`;
    const states = await statesOf(text, 'q[1:0]');
    expect(states).toMatchObject({ method: 'bounded', statesTotal: 3 });
    expect(states.words).toContain('at most');
  });

  it('loads what comes from elsewhere: no states are told, and why not', async () => {
    const text = `module m(input clk, input [15:0] d, output reg [15:0] q);
      initial q = 0;
      always @(posedge clk) q <= d;
    endmodule`;
    const { states, why } = await statesOf(text, 'q[15:0]');
    expect(states).toEqual([]);
    expect(why).toBe('its next value is taken from elsewhere, not decided, or is unknown');
  });
});

describe('counts', () => {
  it('tells a ripple chain as it runs', async () => {
    const text = `module m(input clk, output reg a, b);
      initial {a, b} = 0;
      always @(negedge clk) a <= ~a;
      always @(negedge a) b <= ~b;
    endmodule`;
    const states = await statesOf(text, 'a');
    expect(stepsText(states)).toEqual(['0: 1', '1: 2', '2: 3', '3: 0']);
    expect(states).toMatchObject({ method: 'run', registers: ['b', 'a'] });
  });

  it('does not list more states than anybody reads, and says how many are too many', async () => {
    const text = `module m(input clk, output reg [25:0] q);
      initial q = 0;
      always @(posedge clk) q <= q + 26'd1;
    endmodule`;
    expect((await statesOf(text, 'q[25:0]')).why).toBe('it has more than 1024 states');
  });

  it('knows by which the bits of a shift register close: the feedback polynomial', async () => {
    const text = `module m(input clk, output reg [6:0] q);
      initial q = 7'd1;
      always @(posedge clk) q <= {q[5:0], q[6] ^ q[5]};
    endmodule`;
    const states = await statesOf(text, 'q[6:0]');
    expect(states.sequence).toBe('runs through a linear-feedback sequence of x^7 + x^6 + 1, every 127 edges');
    expect(states.statesTotal).toBe(127);
    expect(fatesText(states)).toEqual(['0: never returns']);
  });
});

describe('a wide case', () => {
  it('keeps to the arms that can be taken: one hot bit each', async () => {
    const text = `module m(input clk, rst, a, output reg [3:0] s);
      always @(posedge clk or negedge rst) if (!rst) s <= 4'b0001;
        else casez (s)
          4'b???1: s <= a ? 4'b0010 : 4'b0001;
          4'b??1?: s <= 4'b0100;
          4'b?1??: s <= 4'b1000;
          default: s <= 4'b0001;
        endcase
    endmodule`;
    const states = await statesOf(text, 's[3:0]');
    expect(stepsText(states)).toEqual(['1: 2 when a, 1 when not a', '2: 4', '4: 8', '8: 1']);
    expect(states.unusedTotal).toBe(12);
    expect(new Set(states.unused.map(({ fate }) => fate))).toEqual(new Set(['returns']));
  });
});
