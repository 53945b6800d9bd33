// `npm run bench`: how long stages take, as ratios against a baseline of the same run (`interleave.ts`). Claims about speed
// quote what this prints; it fails where a claim is missed, and no test runs it. `npm run bench -- PART…` runs some parts
// alone. A claim is told as it is reached.

import { loadavg } from 'node:os';
import { type Claim, isKept, tellClaim } from './claim';
import { benchCycles } from './cycles';
import { benchDrawing } from './drawing';
import { benchEdits } from './edits';
import { benchFindings } from './findings';
import { benchReading } from './reading';
import { benchReport } from './report';
import { benchServerStart } from './server-start';
import { benchWindows } from './windows';

type Claims = Iterable<Claim> | AsyncIterable<Claim> | Promise<Iterable<Claim>>;

const parts: Readonly<Record<string, () => Claims>> = {
  reading: benchReading,
  drawing: benchDrawing,
  windows: benchWindows,
  cycles: benchCycles,
  start: () => benchServerStart(process.cwd()),
  findings: benchFindings,
  edits: () => benchEdits(process.cwd()),
  report: () => benchReport([1_000, 5_000]),
};

const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !(name in parts));
if (unknown.length > 0)
  throw new Error(`no such part: ${unknown.join(', ')}; there are ${Object.keys(parts).join(', ')}`);
const load = loadavg().map((each) => each.toFixed(2));
console.log(`load average ${load.join(' ')}, node ${process.version}`);
const claims: Claim[] = [];
for (const name of asked.length > 0 ? asked : Object.keys(parts)) {
  for await (const claim of await parts[name]()) {
    console.log(tellClaim(claim));
    claims.push(claim);
  }
}
const missed = claims.filter((claim) => !isKept(claim)).length;
console.log(`${claims.length} claims, ${missed} missed`);
process.exitCode = missed === 0 ? 0 : 1;
