// System tasks that only print, record or end a run (IEEE 1364-2005 17): they change nothing in the circuit.

const outputOnly: ReadonlySet<string> = new Set([
  '$display',
  '$displayb',
  '$displayo',
  '$displayh',
  '$write',
  '$writeb',
  '$writeo',
  '$writeh',
  '$strobe',
  '$strobeb',
  '$strobeo',
  '$strobeh',
  '$monitor',
  '$monitorb',
  '$monitoro',
  '$monitorh',
  '$monitoron',
  '$monitoroff',
  '$fdisplay',
  '$fwrite',
  '$fstrobe',
  '$fmonitor',
  '$fclose',
  '$fflush',
  '$finish',
  '$stop',
  '$timeformat',
  '$printtimescale',
  '$info',
  '$warning',
  '$error',
  '$fatal',
  '$dumpfile',
  '$dumpvars',
  '$dumpon',
  '$dumpoff',
  '$dumpall',
  '$dumplimit',
  '$dumpflush',
  '$dumpports',
]);

/** Of those, the ones after which nothing more happens (17.4). */
export function endsRun(name: string): boolean {
  return name === '$finish' || name === '$stop' || name === '$fatal';
}

export function isOutputOnly(name: string): boolean {
  return outputOnly.has(name);
}
