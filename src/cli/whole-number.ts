import { InvalidArgumentError } from 'commander';

/** An option's value as a whole number of at least 1, and none so large that the next one could not be told from it. */
export function wholeNumber(text: string): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < 1)
    throw new InvalidArgumentError(`a whole number from 1 is wanted, received "${text}"`);
  if (!Number.isSafeInteger(value))
    throw new InvalidArgumentError(
      `a whole number of at most ${Number.MAX_SAFE_INTEGER} is wanted, received "${text}"`,
    );
  return value;
}
