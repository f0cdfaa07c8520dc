/** What a report can be written as: pages for a browser, pages on paper, or each chart as a picture. */
export const reportFormats = ['html', 'pdf', 'png', 'svg'] as const;

export type ReportFormat = (typeof reportFormats)[number];

/** What a report is written as. */
export interface ReportForm {
  readonly format: ReportFormat;
  /** Whether each chart's specification is written too, with its data. */
  readonly specs: boolean;
}
