import type { ServiceManagerData } from '../../src/pages/service-manager-data.ts';
import { serviceManagerSample } from './service-manager-sample.ts';

const sample = serviceManagerSample();

/** What the service manager's page is made of where there is nothing to tell. */
export const emptyManagerData: ServiceManagerData = {
  ...sample,
  jobs: 0,
  jobsJudged: 0,
  jobsFlagged: 0,
  sendBack: [],
  lookAt: [],
  callbacks: { ...sample.callbacks, callbacks: 0, entries: [] },
  risk: { ...sample.risk, noList: 'too-few', watchList: [] },
  checks: [],
  cells: { ...sample.cells, rows: [] },
  technicians: [],
  lifeTable: { rows: [], grain: 'month' },
  limitPoints: { rows: [], of: 0, flagged: 0 },
  notes: [],
  jobPages: new Set(),
};
