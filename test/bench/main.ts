// `npm run bench`: how long stages take, as ratios against a baseline of the same run (`interleave.ts`). Claims about speed
// quote what this prints; it fails where a claim is missed, and no test runs it.

import { loadavg } from 'node:os';
import { type Claim, isKept, tellClaim } from './claim';
import { benchDrawing } from './drawing';
import { benchReading } from './reading';
import { benchReport } from './report';
import { benchServerStart } from './server-start';
import { benchWindows } from './windows';

const load = loadavg().map((each) => each.toFixed(2));
console.log(`load average ${load.join(' ')}, node ${process.version}`);
const claims = [
  ...told(benchReading()),
  ...told(benchDrawing()),
  ...told(benchWindows()),
  ...told(await benchServerStart(process.cwd())),
];
benchReport([1_000, 5_000]);
const missed = claims.filter((claim) => !isKept(claim)).length;
console.log(`${claims.length} claims, ${missed} missed`);
process.exitCode = missed === 0 ? 0 : 1;

function* told(claims: Iterable<Claim>): Generator<Claim> {
  for (const claim of claims) {
    console.log(tellClaim(claim));
    yield claim;
  }
}
