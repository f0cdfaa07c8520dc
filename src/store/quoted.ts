/** A text as SQL literal. */
export function literal(text: string): string {
  return `'${text.replaceAll("'", "''")}'`;
}

/** A name as SQL identifier. */
export function identifier(name: string): string {
  return `"${name.replaceAll('"', '""')}"`;
}
