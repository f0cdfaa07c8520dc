/** What a callback was truly about, whatever was written down: what the job left behind, or nothing that the job did. */
export type CallbackCauseTruth = 'leak' | 'moisture' | 'charge' | 'unrelated';

export interface CallbackTruth {
  readonly callback_id: string;
  /** The job that it came after, whether the callback names it or not. */
  readonly job_id: string;
  readonly caused_by: CallbackCauseTruth;
}

/** The columns of the table, in their order. */
export const callbackTruthColumns = [
  'callback_id',
  'job_id',
  'caused_by',
] as const satisfies readonly (keyof CallbackTruth)[];
