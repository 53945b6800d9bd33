// How a reason becomes a sentence: by its key, from its arguments.

import type { ReasonArguments } from '../text/complaint';

export type Sentences = Readonly<Record<string, (args: ReasonArguments) => string>>;
