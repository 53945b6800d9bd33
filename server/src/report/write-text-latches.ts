// The latches of a report as rows of its text: when each is open, what sets and clears it, and whether it seems meant.

import type { Report } from './report';

export function latchRows({ latches }: Report): readonly (readonly string[])[] {
  return latches.map(({ asynchronous, domain, gate, intended, name, span }) => [
    name,
    gate === null ? 'set and cleared by its gates' : `open while ${gate.signal} is ${gate.active}`,
    domain === null ? '' : `clock domain ${domain}`,
    asynchronous.map(({ active, signal, value }) => `${value} while ${signal} is ${active}`).join(', '),
    intended ? '' : 'perhaps not meant',
    `line ${span.line}`,
  ]);
}
