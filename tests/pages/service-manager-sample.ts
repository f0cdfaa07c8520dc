import type { LifeTableRow } from '../../src/charts/called-back-by-age.ts';
import type { LimitPoint } from '../../src/charts/limit-margins.ts';
import { checks } from '../../src/checks/checks.ts';
import { Random } from '../../src/numerics/random.ts';
import { wilsonInterval } from '../../src/numerics/wilson-interval.ts';
import { groupWords } from '../../src/pages/callback-text.ts';
import { sendBackList } from '../../src/pages/send-back.ts';
import type { JobCells, ServiceManagerData, TechnicianCount } from '../../src/pages/service-manager-data.ts';
import { callbackSample, riskSample } from './callback-sample.ts';
import { sampleJobs } from './job-sample.ts';

const months = ['2025-07', '2025-08', '2025-09', '2025-10', '2025-11', '2025-12', '2026-01', '2026-02', '2026-03'];
const refrigerants = ['R-32', 'R-410A', 'R-454B'];
const crews = ['Birch', 'Delta', 'Harbour', 'Quarry'];
const names = ['Ada Fern', 'Bo Lind', 'Cy Marsh', 'Dee Holt', 'Eli Brook', 'Flo Reed', 'Gus Alder', 'Ida Stone'];
/** Of one of them nothing could be judged, and of another much is flagged. */
const [unjudged, muchFlagged] = ['Flo Reed', 'Cy Marsh'];

type Cell = JobCells['rows'][number];

function drawCells(random: Random): Cell[] {
  return months.flatMap((month) =>
    names.flatMap((technician, at) =>
      refrigerants.map((refrigerant): Cell => {
        const jobs = random.integer(1, 5);
        const judged = technician === unjudged ? 0 : jobs - random.integer(0, 1);
        const share = technician === muchFlagged ? 0.55 : random.uniform(0.1, 0.35);
        const flagged = Math.round(judged * share);
        return { month, crew: crews[at % crews.length], technician, refrigerant, jobs, judged, flagged };
      }),
    ),
  );
}

function technicianCounts(cells: readonly Cell[]): TechnicianCount[] {
  return names.map((name, at) => {
    const own = sums(cells.filter(({ technician }) => technician === name));
    const { judged, flagged } = own;
    const interval = wilsonInterval(flagged, judged);
    const crewId = crews[at % crews.length];
    return { technicianId: `t-${at}`, name, crewId, judged, flagged, ...interval, notJudged: own.jobs - judged };
  });
}

/** Every job of the cells from the day of the job to where its watch ends, or to its callback. */
function drawLifeTable(cells: readonly Cell[], random: Random): LifeTableRow[] {
  return cells.flatMap(({ jobs, judged, flagged, ...cell }) => {
    const groups = [
      [groupWords.flagged, flagged, 0.15],
      [groupWords.clean, judged - flagged, 0.04],
      [groupWords['not-judged'], jobs - judged, 0.06],
    ] as const;
    return groups.flatMap(([group, count, called]) =>
      Array.from({ length: count }, () => {
        const isCalled = random.chance(called);
        const ends = {
          step: random.integer(0, 11),
          began: 0,
          late: 0,
          left: isCalled ? 0 : 1,
          called: isCalled ? 1 : 0,
        };
        return [
          { ...cell, group, step: -1, began: 1, late: 0, left: 0, called: 0 },
          { ...cell, group, ...ends },
        ];
      }).flat(),
    );
  });
}

function drawLimitPoints(cells: readonly Cell[], random: Random): LimitPoint[] {
  return cells
    .filter(({ judged }) => judged > 0)
    .map(({ month, crew, technician, refrigerant }, at) => {
      const ratio = Number(random.logUniform(0.02, 3).toPrecision(4));
      const outcome = ratio <= 1 ? 'pass' : ratio <= 1.2 ? 'suspect' : 'fail';
      const day = `${month}-${String(random.integer(1, 22)).padStart(2, '0')}`;
      return { month, crew, technician, refrigerant, job: `J-${20_000 + at}`, day, ratio, outcome, weight: 1 };
    });
}

/** A page's worth of made-up data of a made-up shop. */
export function serviceManagerSample(): ServiceManagerData {
  const random = new Random(20260301);
  const cells = drawCells(random);
  const all = sums(cells);
  const [full, bare, blank] = sampleJobs();
  const risk = riskSample();
  const lookAt = [full, bare, blank];
  const evidence = [full, ...risk.watchList.slice(1).map(({ jobId }) => ({ ...bare, jobId }))];
  const watched = risk.watchList.map((job, at) => ({ job, evidence: evidence[at] }));
  return {
    policyId: 'as-recorded',
    policyTitle: 'As recorded',
    period: { from: '2025-07-01', to: '2026-03-22' },
    jobs: all.jobs,
    jobsJudged: all.judged,
    jobsFlagged: all.flagged,
    sendBack: sendBackList([full, bare], watched),
    sendBackOf: sendBackList([full, bare], watched).length,
    week: {
      from: '2026-03-16',
      to: '2026-03-22',
      jobs: 15,
      jobsJudged: 13,
      jobsFlagged: lookAt.length,
      before: { days: 28, jobs: 61, jobsJudged: 55, jobsFlagged: 15 },
      checks: checks.map(({ id }, at) => ({ checkId: id, found: at % 3, judged: 8 + (at % 5) })),
      callbacks: 6,
      callbacksOfCommissioning: 2,
      chargedKg: 41.3,
      chargedJobs: 9,
    },
    lookAt,
    callbacks: callbackSample(),
    risk,
    checks: checks.map(({ id, question }, at) => {
      const [fail, suspect] = [random.integer(0, 20) * (at % 3), random.integer(0, 30)];
      const [notEvaluated, missing] = [random.integer(0, 90), random.integer(0, 50)];
      const pass = all.jobs - fail - suspect - notEvaluated - missing;
      return { checkId: id, question, pass, suspect, fail, notEvaluated, missing };
    }),
    cells: { rows: cells, grain: 'month', crews: crews.length, technicians: names.length },
    technicians: technicianCounts(cells),
    lifeTable: { rows: drawLifeTable(cells, random), grain: 'month' },
    limitPoints: { rows: drawLimitPoints(cells, random), of: 412, flagged: 60 },
    notes: [
      '41 jobs could not be judged by any check: 29 came without readings, 12 with a compound gauge.',
      '3 jobs carry no technician; they count for their crew only.',
    ],
    jobPages: new Set([...lookAt, ...evidence].map(({ jobId }) => jobId)),
  };
}

function sums(cells: readonly Cell[]): { jobs: number; judged: number; flagged: number } {
  const sum = (key: 'jobs' | 'judged' | 'flagged') => cells.reduce((total, cell) => total + cell[key], 0);
  return { jobs: sum('jobs'), judged: sum('judged'), flagged: sum('flagged') };
}
