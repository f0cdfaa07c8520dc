import { InvalidArgumentError, Option } from 'commander';
import { DryholdError } from '../errors.ts';
import { parseQuantity } from '../units/parse-quantity.ts';

/** Longest that a store is waited for [s]: a day. */
const mostWaitS = 86_400;

/** How long the steps of a declared run wait for a store that is in use: somebody may be looking at it. */
export const usualWaitOfRun = '10min';

/** How long a store is waited for while somebody else uses it; its value stays as it was written. */
export function waitOption(): Option {
  return new Option('--wait <duration>', 'wait so long while the store is in use by somebody else: 30s, 10min')
    .default('0s')
    .argParser((text) => {
      try {
        waitTimeS(text);
        return text;
      } catch (error) {
        throw error instanceof DryholdError ? new InvalidArgumentError(error.message) : error;
      }
    });
}

/** What the option says [s]. */
export function waitTimeS(text: string): number {
  return parseQuantity(text, ['duration'], { range: { name: 'wait', lowest: 0, highest: mostWaitS } }).durationS;
}
