// `rates[]` of the report: how often outputs, enables and what a person named come and go, beside the rate that is
// wished. What stands still or is not proven is listed only where a rate is wished of it.

import { rootHertz } from '../predict/ratio-survey';
import { fractionOf } from '../predict/ratio-fraction';
import type { BitRate, Fraction } from '../predict/prediction';
import type { Place } from '../text/place';
import { inOrder } from '../explain/places';
import { whyWords } from '../explain/why';
import { type DesignFacts, fractionText } from './design-facts';
import { ratedBits } from './rated-bits';
import type { ReportRate } from './report';

export function buildRates(facts: DesignFacts): readonly ReportRate[] {
  const { options } = facts;
  const rated = [...ofBits(facts), ...ofEnables(facts)];
  const byName = new Map<string, NamedRate>();
  for (const one of rated) if (!byName.has(one.name)) byName.set(one.name, one);
  const told = [...byName.values()].filter(
    ({ name, rate }) => rate.ratio !== null || Object.hasOwn(options.rates, name),
  );
  return inOrder(
    told.map((one) => buildRate(facts, one)),
    ({ signal }) => signal,
  );
}

interface NamedRate {
  readonly name: string;
  readonly rate: BitRate;
  readonly place: Place;
}

function ofBits({ netlist, options, prediction }: DesignFacts): readonly NamedRate[] {
  return ratedBits(netlist, options).flatMap(({ bit, name }, index) => {
    const signal = netlist.signals.find(({ node }) => node === bit.node);
    return signal === undefined ? [] : [{ name, rate: prediction.rates[index], place: signal.place }];
  });
}

function ofEnables({ names, netlist, prediction }: DesignFacts): readonly NamedRate[] {
  return netlist.registers.flatMap(({ enables, id }) => {
    const rate = prediction.enables[id];
    if (rate === null) return [];
    const [{ condition, place, text }] = enables;
    return [{ name: names.nameOf({ node: condition, bit: 0 }) ?? text, rate, place }];
  });
}

function buildRate({ options, places, prediction }: DesignFacts, { name, place, rate }: NamedRate): ReportRate {
  const { duty, ratio, root, why } = rate;
  const clock = prediction.drive.clocks.find((driven) => driven.root === root);
  const length = (periods: Fraction) => ({
    periods: fractionText(periods) ?? '',
    seconds: Number(periods.numerator) / Number(periods.denominator) / (clock === undefined ? 1 : rootHertz(clock)),
  });
  const isKnown = ratio !== null && duty !== null && clock !== undefined;
  const period = isKnown ? length(ratio) : null;
  const high = isKnown ? length(product(ratio, duty)) : null;
  const wished = Object.hasOwn(options.rates, name) ? options.rates[name] : null;
  return {
    signal: name,
    period,
    high,
    wished,
    error: wished === null || period === null ? null : (1 / period.seconds - wished) / wished,
    why: why === null ? null : whyWords(why),
    span: places.spanOf(place),
  };
}

function product(left: Fraction, right: Fraction): Fraction {
  return fractionOf(left.numerator * right.numerator, left.denominator * right.denominator);
}
