import { InvalidArgumentError } from 'commander';

/** An option's value as the name of a folder: an empty one, as of a variable that is not set, names none. */
export function folderName(text: string): string {
  if (text === '') throw new InvalidArgumentError('the name of a folder is wanted, received ""');
  return text;
}

/** The same of an option that takes several. */
export function folderNames(text: string, before: readonly string[] = []): string[] {
  return [...before, folderName(text)];
}
