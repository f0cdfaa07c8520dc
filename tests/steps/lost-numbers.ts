/** Where a report has what is no number: JSON would make null of it. */
export function lostNumbers(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} ${value}`];
  if (value === undefined) return [`${path} undefined`];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, each]) => lostNumbers(each, `${path}/${key}`));
}
