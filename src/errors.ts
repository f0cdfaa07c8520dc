/** What each error code carries, and so what its text can say. */
export interface ErrorParameters {
  'bad-usage': { problem: string };
  'file-not-found': { path: string };
  'file-unreadable': { path: string; problem: string };
  'nothing-to-read': { path: string; expected: string };
  'map-invalid': { path: string; where: string; problem: string };
  'notebook-failed': { path: string; line: number; column?: number | undefined; problem: string };
  'policy-invalid': { path: string; where: string; problem: string };
  'run-invalid': { path: string; where: string; problem: string };
  'run-busy': { path: string; holder: string };
  'store-missing': { path: string };
  'store-newer': { path: string; found: number; known: number };
  'store-busy': { path: string; holder: string };
  'store-unreadable': { path: string; problem: string };
  'store-unwritable': { path: string; problem: string };
  'output-unwritable': { path: string; problem: string };
  'engine-broken': { path: string; problem: string };
  'browser-missing': { problem: string };
  'printing-failed': { problem: string };
  'unknown-unit': { unit: string; known: string };
  'unknown-refrigerant': { refrigerant: string; known: readonly string[]; near?: readonly string[] };
  'unknown-job': { job: string; store: string };
  'unknown-appliance': { appliance: string; store: string };
  'unknown-cylinder': { cylinder: string; store: string };
  'unknown-person': { who: string; known: readonly string[] };
  'ambiguous-person': { who: string; meant: readonly string[] };
  'unknown-table': { table: string; known: string };
  'not-judged': { path: string };
  'results-refused': { path: string; problem: string };
  'query-refused': { problem: string };
  'unreadable-quantity': { text: string; problem: string; wanted: string };
  'not-converged': { quantity: string };
  'out-of-range': { quantity: string; bound: string; received: number };
}

export type ErrorCode = keyof ErrorParameters;

/** One line a code: what, where, what to do. Lower case, no full stop. */
const texts: { [Code in ErrorCode]: (parameters: ErrorParameters[Code]) => string } = {
  'bad-usage': (p) => p.problem,
  'file-not-found': (p) => `${p.path}: no such file or folder`,
  'file-unreadable': (p) => `${p.path}: cannot be read: ${p.problem}`,
  'nothing-to-read': (p) => `${p.path}: nothing to read here; expected ${p.expected}`,
  'map-invalid': (p) => `${p.path}: source map is wrong at ${p.where}: ${p.problem}`,
  'notebook-failed': (p) =>
    `${p.path}:${p.line}${p.column === undefined ? '' : `:${p.column}`}: ${p.problem}; nothing of this notebook is written`,
  'policy-invalid': (p) => `${p.path}: policy is wrong at ${p.where}: ${p.problem}`,
  'run-invalid': (p) => `${p.path}: declared run is wrong at ${p.where}: ${p.problem}`,
  'run-busy': (p) =>
    `${p.path}: this run is under way already (${p.holder}), and nothing was done; wait until it has ended, then try again`,
  'store-missing': (p) => `${p.path}: no store here; make one with "dryhold ingest"`,
  'store-newer': (p) =>
    `${p.path}: store has version ${p.found}, this dryhold knows up to ${p.known}; use a newer dryhold`,
  'store-busy': (p) => `${p.path}: store is in use by ${p.holder}; wait until it is done, then try again`,
  'store-unreadable': (p) => `${p.path}: not a readable store: ${p.problem}`,
  'store-unwritable': (p) =>
    `${p.path}: store cannot be written, and what was under way is undone: ${p.problem}; once that is mended, run it again`,
  'output-unwritable': (p) => `${p.path}: cannot be used: ${p.problem}`,
  'engine-broken': (p) =>
    `${p.path}: the database engine broke down on it (${p.problem}), and what was under way is undone; take it out, run again, and report it`,
  'browser-missing': ({ problem }) =>
    `${problem}: printing to PDF needs an installed chromium, Chrome or Edge; install one, name it in DRYHOLD_BROWSER, or open the pages in any browser and print them there`,
  'printing-failed': ({ problem }) =>
    `the browser broke off while it printed (${problem}): run it again; where that does not help, open the pages in any browser and print them there`,
  'unknown-unit': (p) => `unknown unit "${p.unit}"; known: ${p.known}`,
  'unknown-refrigerant': ({ refrigerant, known, near = [] }) =>
    `no equation of state for "${refrigerant}"; ${near.length > 0 ? `did you mean ${near.join(' or ')}?` : `known: ${known.join(', ')}`}`,
  'unknown-job': (p) => `no job "${p.job}" in ${p.store}; list them with: dryhold query "select job_id from jobs"`,
  'unknown-appliance': (p) =>
    `no appliance "${p.appliance}" in ${p.store}; list them with: dryhold query "select system_id from appliances"`,
  'unknown-cylinder': (p) =>
    `no cylinder "${p.cylinder}" in ${p.store}; list them with: dryhold query "select cylinder_id from cylinders"`,
  'unknown-person': ({ who, known }) =>
    `neither a technician nor a crew with judged jobs is "${who}"; ${known.length > 0 ? `there are: ${known.join(', ')}` : 'none is on record'}`,
  'ambiguous-person': ({ who, meant }) =>
    `"${who}" is more than one; name the code of the one that is meant: ${meant.join(', ')}`,
  'unknown-table': (p) => `no table "${p.table}"; known: ${p.known}`,
  'not-judged': (p) => `${p.path}: nothing is judged yet; run "dryhold judge" first`,
  'results-refused': (p) => `${p.path}: not taken, and nothing else is: ${p.problem}`,
  'query-refused': (p) => `query refused: ${p.problem}`,
  'unreadable-quantity': (p) => `cannot read "${p.text}": ${p.problem}; wanted: ${p.wanted}`,
  'not-converged': (p) => `${p.quantity}: the equations give no solution`,
  'out-of-range': (p) => `${p.quantity} out of range: must be ${p.bound}, received ${p.received}`,
};

/** Exit status by code: 2 wrong usage, 3 unreadable input or store. */
const exitStatuses: Record<ErrorCode, 2 | 3> = {
  'bad-usage': 2,
  'file-not-found': 3,
  'file-unreadable': 3,
  'nothing-to-read': 3,
  'map-invalid': 3,
  'notebook-failed': 3,
  'policy-invalid': 3,
  'run-invalid': 2,
  'run-busy': 3,
  'store-missing': 3,
  'store-newer': 3,
  'store-busy': 3,
  'store-unreadable': 3,
  'store-unwritable': 3,
  'output-unwritable': 3,
  'engine-broken': 3,
  'browser-missing': 3,
  'printing-failed': 3,
  'unknown-unit': 2,
  'unknown-refrigerant': 2,
  'unknown-job': 2,
  'unknown-appliance': 2,
  'unknown-cylinder': 2,
  'unknown-person': 2,
  'ambiguous-person': 2,
  'unknown-table': 2,
  'not-judged': 2,
  'results-refused': 3,
  'query-refused': 2,
  'unreadable-quantity': 2,
  'not-converged': 2,
  'out-of-range': 2,
};

/**
 * The one error class: the caller or the machine is wrong, never the data.
 *
 * Wrong data is a value (a reject or a finding); only `cli/` catches this.
 */
export class DryholdError<Code extends ErrorCode = ErrorCode> extends Error {
  readonly code: Code;
  readonly parameters: ErrorParameters[Code];
  readonly exitStatus: 2 | 3;

  constructor(code: Code, parameters: ErrorParameters[Code], cause?: unknown) {
    super(texts[code](parameters), { cause });
    this.name = 'DryholdError';
    this.code = code;
    this.parameters = parameters;
    this.exitStatus = exitStatuses[code];
  }
}

/** What a machine refuses, in a person's words. */
const machineProblems: Readonly<Record<string, string>> = {
  EACCES: 'permission denied',
  EDQUOT: 'the disk is full',
  EEXIST: 'a file of that name is in the way',
  EIO: 'the disk fails',
  EISDIR: 'it is a folder',
  ENAMETOOLONG: 'the name is too long',
  ENOENT: 'no such folder',
  ENOSPC: 'the disk is full',
  ENOTDIR: 'a file is in the way where a folder should be',
  EPERM: 'permission denied',
  EROFS: 'the disk is read-only',
};

/** How the engine says the same, within a longer sentence. */
const engineProblems: readonly (readonly [says: RegExp, problem: string])[] = [
  [/No space left on device|Disk quota exceeded/, machineProblems.ENOSPC],
  [/Permission denied|Operation not permitted/, machineProblems.EACCES],
  [/Read-only file system/, machineProblems.EROFS],
];

/** What the machine refused, where an error of Node or of the engine says that it did; else undefined. */
export function machineProblem(error: unknown): string | undefined {
  if (!(error instanceof Error)) return undefined;
  const { code } = error as NodeJS.ErrnoException;
  if (code !== undefined && code in machineProblems) return machineProblems[code];
  return engineProblems.find(([says]) => says.test(error.message))?.[1];
}
