// What-ifs: what is asked becomes a netlist and options of its own, and what would differ is told in words, as data and as
// traces. Expected times are worked out by hand from the delays named.
import { describe, expect, it } from 'vitest';
import { parseWhatIf } from '../../server/src/report/what-if';
import { noSettings, optionsFrom } from '../../server/src/report/options';
import { noProject } from '../../server/src/report/project';
import { published } from '../published/published';
import { study } from '../../server/src/report/study';
import { readyParser } from '../tools/parser';
import { toEnd } from '../tools/report-of';

async function studyAsked(text: string, ...asked: readonly string[]) {
  const options = optionsFrom(noProject, { ...noSettings, whatIf: asked.map(parseWhatIf) });
  const input = { files: [{ path: 'm.v', text }], provided: [], includeFolders: [], options };
  return study(input, await readyParser());
}

async function answerOf(text: string, ...asked: readonly string[]) {
  const { whatIf } = toEnd((await studyAsked(text, ...asked)).report());
  if (whatIf === null) throw new Error('nothing was asked');
  return whatIf;
}

/** Bits that toggle, the second clocked by the first; the drive rises at 10 ns and every 20 ns. */
const pair = (first: string, second: string) => `module m(input clk, output reg [1:0] q);
  initial q = 0;
  always @(${first} clk) q[0] <= ~q[0];
  always @(${second} q[0]) q[1] <= ~q[1];
endmodule`;

describe('the answer', () => {
  it('says by how much a register would follow later, and what is clocked by it', async () => {
    // The falling edge of the clock comes 10 ns after the rising one.
    const { answer, asked } = await answerOf(pair('posedge', 'negedge'), 'q[0] edge falling');
    expect(asked).toEqual([
      { about: 'q[0]', what: 'edge', value: 'falling', words: 'q[0] on the falling edge of its clock' },
    ]);
    expect(answer).toContain('q[0] would follow 10 ns later');
    expect(answer).toContain('q[1] would follow 10 ns later');
  });

  published(
    ['DIR-1', 'DIR-2'],
    'only the edge of the second sets the direction; the start sets where it begins',
    async () => {
      const values = async (text: string, ...asked: readonly string[]) => {
        const { changes } = await answerOf(text, ...asked);
        const altered = changes.find(({ kind }) => kind === 'sequence')?.fields.find(({ field }) => field === 'values');
        return [altered?.from, altered?.to].map((list) => (JSON.parse(list ?? '[]') as string[]).join(' '));
      };
      expect(await values(pair('posedge', 'posedge'), 'q[1] edge falling')).toEqual(['0 3 2 1', '0 1 2 3']);
      expect(await values(pair('negedge', 'negedge'), 'q[1] edge rising')).toEqual(['0 1 2 3', '0 3 2 1']);
      expect(await values(pair('posedge', 'posedge'), 'q start 3')).toEqual(['0 3 2 1', '3 2 1 0']);
      expect(await values(pair('posedge', 'posedge'), 'q start 1')).toEqual(['0 3 2 1', '1 0 3 2']);
    },
  );

  it('of another delay set says when a chain would settle', async () => {
    // 74HC393 at 5 V: 12 ns to the first output, 5 ns from output to output.
    const { answer } = await answerOf(pair('negedge', 'negedge'), 'delays 74HC393');
    expect(answer).toContain('q[0] q[1]: settles within 17 ns, instead of settles within 2 ns');
    expect(answer).toContain('q[0] would follow 11 ns later');
  });

  it('of the delays of one register moves that and what follows it', async () => {
    const { answer } = await answerOf(pair('negedge', 'negedge'), 'q[1] delays 74HC393');
    expect(answer.some((line) => line.startsWith('q[0] '))).toBe(true);
    expect(answer.filter((line) => line.includes('would follow'))).toHaveLength(1);
  });

  const enabled = `module m(input clk, clk2, en, output reg q, r);
    initial {q, r} = 0;
    always @(posedge clk) if (en) q <= ~q;
    always @(posedge clk2) r <= ~r;
  endmodule`;

  it('of an input held says what would not change any more', async () => {
    expect((await answerOf(enabled, 'en held 0')).answer).toContain('q would not change: it would stay at 0');
  });

  it('of another clock says what is found then', async () => {
    const { changes } = await answerOf(enabled, 'r clock clk');
    const altered = changes.find(({ kind, name }) => kind === 'register' && name === 'r');
    expect(altered?.fields.map(({ field }) => field)).toContain('clock');
  });

  it('of what is so already is that nothing differs', async () => {
    expect((await answerOf(enabled, 'q edge rising')).answer).toEqual([
      'nothing that is drawn or told would be different',
    ]);
  });
});

describe('the traces', () => {
  it('are those that would run otherwise, and the others stand as they are', async () => {
    const opened = await studyAsked(pair('negedge', 'negedge'), 'q[1] edge rising');
    const { traces, whatIf } = toEnd(opened.preview());
    expect(whatIf?.traces.map(({ trace }) => traces[trace].name)).toEqual(['q[1]']);
    // q[0] rises at 21 ns and every 40 ns; q[1] follows 1 ns later.
    expect(whatIf?.traces[0].changes.at.slice(0, 2)).toEqual([22_000, 62_000]);
    expect(traces.find(({ name }) => name === 'q[1]')?.changes.at[0]).toBe(42_000);
  });

  it('leave the study as it is: the same report but for the answer', async () => {
    const asked = toEnd((await studyAsked(pair('negedge', 'negedge'), 'q[1] edge rising')).report());
    const plain = toEnd((await studyAsked(pair('negedge', 'negedge'))).report());
    expect({ ...asked, whatIf: null }).toEqual(plain);
  });
});

describe('what cannot be asked', () => {
  const whole = `module m(input clk, output reg [1:0] q);
    initial q = 0;
    always @(posedge clk) q <= q + 2'd1;
  endmodule`;

  it.each([
    ['nix edge rising', 'nix is no signal of this design'],
    ['clk edge rising', 'clk is held in no register'],
    ['q[1] edge falling', 'q[1] is clocked together with all of q[1:0]: name that'],
    ['q edge up', 'an edge is rising or falling, not up'],
    ['q clock nix', 'nix is no signal of this design'],
    ['q start 9', 'a start of 2 bits cannot be 9'],
    ['q held 1', 'q is no input of this design'],
  ])('%s: %s', async (asked, words) => {
    expect(await answerOf(whole, asked)).toMatchObject({ refused: words, answer: [], changes: [] });
  });

  it('bits of a register may start apart, though they are clocked together', async () => {
    const { changes } = await answerOf(whole, 'q[1] start 1');
    expect(changes.find(({ kind }) => kind === 'register')?.fields).toContainEqual({
      field: 'start',
      from: '"00"',
      to: '"10"',
    });
  });

  it('is refused at once where it is no what-if', () => {
    expect(() => parseWhatIf('q sideways 1')).toThrow(
      'q sideways 1 is no what-if: write NAME edge|start|clock|delays|held VALUE',
    );
    expect(() => parseWhatIf('edge rising')).toThrow('before edge the name of what it is about is missing');
  });

  it('names a delay set that is unknown', async () => {
    await expect(studyAsked(whole, 'delays nix')).rejects.toThrow('no delay set is called nix');
  });
});
