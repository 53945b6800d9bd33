// Two flip-flops, the second clocked by the first: which edge of which sets the direction of the count (common practice,
// no source). The account of every change and of every active edge that changed nothing, kept as text to be read by eye.

import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { writeAccountsText } from '../../server/src/report/write-accounts';
import { studyOf, toEnd, wavesOf } from '../tools/report-of';

const folder = dirname(fileURLToPath(import.meta.url));

interface Circuit {
  readonly first: string;
  readonly second: string;
  readonly start: number;
}

const circuits: Readonly<Record<string, Circuit>> = {
  'both-rising': { first: 'posedge', second: 'posedge', start: 0 },
  'both-falling': { first: 'negedge', second: 'negedge', start: 0 },
  'falling-then-rising': { first: 'negedge', second: 'posedge', start: 0 },
  'rising-then-falling': { first: 'posedge', second: 'negedge', start: 0 },
  'both-rising-from-3': { first: 'posedge', second: 'posedge', start: 3 },
  'both-rising-from-1': { first: 'posedge', second: 'posedge', start: 1 },
};

describe.each(Object.entries(circuits))('%s', (name, circuit) => {
  it('every edge has its account', async () => {
    const text = textOf(circuit);
    await expect(await accountsOf(text)).toMatchFileSnapshot(join(folder, `${name}.expected.txt`));
  });
});

function textOf({ first, second, start }: Circuit): string {
  return `module direction(input clk, output reg [1:0] q);
  initial q = ${start};
  wire [1:0] n = ~q;
  always @(${first} clk)  q[0] <= n[0];
  always @(${second} q[0]) q[1] <= n[1];
endmodule
`;
}

/** Over five periods: the circuit, then each bit at each of its changes and at each edge of its clock. */
async function accountsOf(text: string): Promise<string> {
  const files = [{ path: 'direction.v', text }];
  const waves = await wavesOf(files, 110_000);
  const study = await studyOf(files);
  const blocks = ['q[0]', 'q[1]'].flatMap((signal, bit) => {
    const clock = bit === 0 ? 'clk' : 'q[0]';
    const instants = new Set([...waves(signal).changes, ...waves(clock).changes].map(({ at }) => at));
    return [...instants]
      .filter((at) => at < 100_000)
      .sort((left, right) => left - right)
      .map((at) => `-- ${signal} at ${at} ps\n${writeAccountsText(toEnd(study.accounts(signal, at)) ?? [])}`);
  });
  return `${text}\n${blocks.join('\n')}`;
}
