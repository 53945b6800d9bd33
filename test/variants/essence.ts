// What a report says of a circuit apart from how it was written: no names but those that `rename` maps, no places, no
// order, and every vector bit by bit.

import type { Report, ReportRegister } from '../../server/src/report/report';

/** `rename`: from a full name in this report to the name to compare by. */
export function essence(report: Report, rename: (name: string) => string): unknown {
  return {
    registers: report.registers.flatMap((register) => bits(register, rename)).sort(),
    clocks: sorted(
      report.clocks.map(({ signal, kind, from, ratio, duty, uniform, sound }) => ({
        signal: rename(signal),
        kind,
        from: from.map(rename).sort(),
        ...{ ratio, duty, uniform, sound },
      })),
    ),
    domains: sorted(report.domains.map(({ name, roots }) => ({ name: rename(name), roots: roots.map(rename) }))),
    chains: sorted(
      report.chains.map(({ registers, settle, skew, worst, maxClockHz }) => ({
        registers: registers.map(rename),
        ...{ settle, skew, worst, maxClockHz },
      })),
    ),
    counts: sorted(
      report.counts
        .filter(({ registers }) => registers.length > 1)
        .map(({ start, values, period, kind, modulus, steps }) => ({ start, values, period, kind, modulus, steps })),
    ),
    crossings: sorted(
      report.crossings.map(({ synchronizer, status, bits: width }) => ({ synchronizer, status, width })),
    ),
    resets: sorted(
      report.resets.map(({ signal, active, kind, release }) => ({ signal: rename(signal), active, kind, release })),
    ),
    glitches: sorted(
      report.glitches.map(({ signal, certainty, transitions, harmless }) => ({
        signal: rename(signal),
        transitions: transitions.map(({ from, to, pulse }) => ({ from, to, pulse })),
        ...{ certainty, harmless },
      })),
    ),
    findings: sorted(report.findings.map(({ id, certainty, severity }) => ({ id, certainty, severity }))),
  };
}

function bits(register: ReportRegister, rename: (name: string) => string): string[] {
  const { signal, msb, lsb, clock, root, stage, domain, start, arrival, settles, bitRatios, bitDuties, ratio, duty } =
    register;
  const step = msb >= lsb ? -1 : 1;
  const width = Math.abs(msb - lsb) + 1;
  const isScalar = !register.name.endsWith(']');
  return Array.from({ length: width }, (_, position) =>
    JSON.stringify({
      name: rename(isScalar ? signal : `${signal}[${msb + step * position}]`),
      clock: `${rename(clock.signal)} ${clock.edge}`,
      root: root === null ? null : `${rename(root.signal)} ${root.edge}`,
      domain: domain === null ? null : rename(domain),
      start: start[position],
      ratio: width === 1 ? ratio : (bitRatios?.[position] ?? null),
      duty: width === 1 ? duty : (bitDuties?.[position] ?? null),
      asynchronous: register.asynchronous.map(({ signal: control, active }) => `${rename(control)} ${active}`),
      synchronous: register.synchronous.map(({ signal: control, active }) => `${rename(control)} ${active}`),
      ...{ stage, arrival, settles },
    }),
  );
}

function sorted<Entry>(entries: readonly Entry[]): string[] {
  return entries.map((entry) => JSON.stringify(entry)).sort();
}
