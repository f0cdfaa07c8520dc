/**
 * An id with what it is the id of, said once: many shops write the word into the id.
 *
 * @example namedId('crew', 'north') // 'crew north'
 * @example namedId('crew', 'crew-birch') // 'crew-birch'
 */
export function namedId(noun: string, id: string): string {
  const saysSo = new RegExp(`^(no )?${noun}(?![a-z])`, 'i').test(id);
  return saysSo ? id : `${noun} ${id}`;
}
