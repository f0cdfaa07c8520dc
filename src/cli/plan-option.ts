import { DryholdError } from '../errors.ts';

/**
 * What an option of `dryhold plan` says; what is wrong with it is told by its name.
 *
 * @throws DryholdError `bad-usage`
 */
export function planOption<Value>(option: string, parse: () => Value): Value {
  try {
    return parse();
  } catch (error) {
    if (error instanceof DryholdError) throw new DryholdError('bad-usage', { problem: `${option}: ${error.message}` });
    throw error;
  }
}
