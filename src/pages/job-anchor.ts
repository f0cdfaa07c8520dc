/**
 * The id of a job's section in a page, without blanks; an id of letters, digits and hyphens stays as it is.
 *
 * @example jobAnchor('1042') // 'job-1042'
 */
export function jobAnchor(jobId: string): string {
  return `job-${encodeURIComponent(jobId.toWellFormed())}`;
}
