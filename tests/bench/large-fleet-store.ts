import { createHash } from 'node:crypto';
import { type Check, type Outcome, outcomes } from '../../src/checks/check.ts';
import { checks } from '../../src/checks/checks.ts';
import { asRecorded } from '../../src/checks/policy.ts';
import { methodVersion } from '../../src/facts/method-version.ts';
import { literal, query } from '../../src/store/sql.ts';
import { Store } from '../../src/store/store.ts';
import { type Draw, drawsOf } from './draws.ts';
import { makeLargeAccounts } from './large-accounts.ts';

export interface LargeFleet {
  readonly jobs: number;
  readonly technicians: number;
  readonly seed: number;
}

const firstDay = '2021-01-01';
const days = 5 * 365;
const techniciansPerCrew = 5;
/** Jobs that are laid down at once, so that the engine holds little. */
const chunkJobs = 250_000;

const systemTypes = ['ductless', 'ducted', 'multi', 'packaged'];
const workTypes = ['install', 'replace', 'repair', 'recharge', 'retrofit', 'service'];
const refrigerants = ['R-410A', 'R-32', 'R-454B', 'R-407C', 'R-22', 'R-134a', 'R-404A', 'R-290'];
const offsets = ['-05:00', '-06:00', '-07:00', '-08:00'];

/**
 * Makes a store of a large fleet that counts as judged by the usual policy: records, facts and findings without readings,
 * laid down in the order of the jobs. The same seed gives the same rows.
 *
 * Of the findings some 60 % pass, 15 % flag, 15 % are not evaluated and 10 % missing. How many flag depends on the check,
 * on the technician, a little otherwise in each check, and on the length of the line set. One job of ten is on the system of an earlier
 * one, and callbacks come the sooner where the rise or the charge was flagged: some 5 % of jobs within a year.
 *
 * @param folder where no store lies yet
 */
export async function makeLargeFleetStore(folder: string, fleet: LargeFleet): Promise<void> {
  const store = await Store.open(folder, 'write');
  try {
    const draw = drawsOf(fleet.seed);
    await makePeople(store, fleet, draw);
    for (let first = 0; first < fleet.jobs; first += chunkJobs) {
      await drawJobs(store, fleet, draw, first, Math.min(first + chunkJobs, fleet.jobs));
      await store.transaction(async () => {
        await store.run(insertJobs);
        await store.run(insertFacts(draw));
        await store.run(insertFindings(draw));
      });
    }
    await store.transaction(() => store.run(insertCallbacks(draw)));
    await makeLargeAccounts(store, draw);
    await markJudged(store);
    await store.run('CHECKPOINT');
  } finally {
    await store.close();
  }
}

function list(values: readonly (string | number)[]): string {
  return `[${values.map((value) => (typeof value === 'string' ? literal(value) : value)).join(', ')}]`;
}

/** One of a few words, all as likely. */
function oneOf(words: readonly string[], drawn: string): string {
  return `${list(words)}[1 + floor(${words.length} * ${drawn})::INTEGER]`;
}

/** From `low` to `high`, all as likely. */
function between(low: number, high: number, drawn: string): string {
  return `(${low} + ${high - low} * ${drawn})`;
}

/** Normally distributed, as good as it must be. */
function normal(draw: Draw, what: string, of: string): string {
  return `(${[1, 2, 3, 4].map((part) => draw(`${what} ${part}`, of)).join(' + ')} - 2) * 1.732`;
}

/** Technicians by number; one of five moves to another crew on a day. */
async function makePeople(store: Store, { technicians }: LargeFleet, draw: Draw): Promise<void> {
  const crews = Math.ceil(technicians / techniciansPerCrew);
  await store.run(`CREATE TEMP TABLE fleet_people AS
    SELECT n, 'T-' || lpad(n::VARCHAR, 5, '0') AS technician_id, n // ${techniciansPerCrew} AS crew,
      CASE WHEN ${draw('moves', 'n')} < 0.2
        THEN DATE '${firstDay}' + ${between(0.1 * days, 0.9 * days, draw('moves on', 'n'))}::INTEGER END AS moves_on,
      floor(${crews} * ${draw('later crew', 'n')})::BIGINT AS later_crew,
      ${oneOf(['0.05', '0.1', '0.15'], draw('gauge accuracy', 'n'))}::DOUBLE AS gauge_accuracy_ratio,
      ${oneOf(['0.13332', '1.33322'], draw('gauge step', 'n'))}::DOUBLE AS gauge_step_pa,
      0.35 * ${normal(draw, 'effect', 'n')} AS effect
    FROM range(${technicians}) numbers(n)`);
  await store.run(`INSERT INTO people (technician_id, hired_on)
    SELECT technician_id, DATE '${firstDay}' - (3000 * ${draw('hired on', 'n')})::INTEGER FROM fleet_people ORDER BY n`);
  await store.run(`INSERT INTO memberships (technician_id, crew_id, from_on, to_on)
    SELECT technician_id, ${crewId('crew')}, DATE '${firstDay}', moves_on - 1 FROM fleet_people
    UNION ALL SELECT technician_id, ${crewId('later_crew')}, moves_on, NULL FROM fleet_people WHERE moves_on IS NOT NULL
    ORDER BY ALL`);
  const trainings = Math.max(20, Math.round(technicians * 0.3));
  const topics = checks.map(({ id }) => id);
  await store.run(`INSERT INTO trainings (training_id, technician_id, held_on, topic)
    SELECT 'TR-' || lpad(m::VARCHAR, 5, '0'), p.technician_id,
      DATE '${firstDay}' + (${days} * ${draw('held on', 'm')})::INTEGER, ${oneOf(topics, draw('topic', 'm'))}
    FROM (SELECT m, floor(${technicians} * ${draw('trained', 'm')})::BIGINT AS n FROM range(${trainings}) numbers(m))
    JOIN fleet_people p USING (n) ORDER BY m`);
}

function crewId(number: string): string {
  return `'C-' || lpad((${number})::VARCHAR, 4, '0')`;
}

function messageOf(check: Check, outcome: Outcome): string {
  return check.examples.find((example) => example.outcome === outcome)?.message ?? Object.keys(check.messages)[0];
}

/** The jobs of one chunk, with what their facts and findings depend on. They are numbered nearly in the order of time. */
async function drawJobs(store: Store, fleet: LargeFleet, draw: Draw, from: number, to: number): Promise<void> {
  const { jobs, technicians } = fleet;
  const day = `least(${days - 1}, greatest(0, ${days} * (j / ${jobs}) + ${between(-7, 7, draw('day', 'j'))}))`;
  await store.run(`CREATE OR REPLACE TEMP TABLE fleet_drawn AS
    SELECT j, floor(${technicians} * pow(${draw('technician', 'j')}, 1.3))::BIGINT AS n,
      DATE '${firstDay}' + floor(${day})::INTEGER AS day,
      CASE WHEN ${draw('line known', 'j')} > 0.1
        THEN round(3 + 37 * pow(${draw('line', 'j')}, 1.5), 1) END AS line_length_m
    FROM range(${from}, ${to}) numbers(j)`);
  await store.run(`CREATE OR REPLACE TEMP TABLE fleet_jobs AS
    SELECT d.j, 'J-' || lpad(d.j::VARCHAR, 8, '0') AS job_id, d.line_length_m,
      CASE WHEN ${draw('same system', 'd.j')} < 0.1 THEN floor(d.j * ${draw('which system', 'd.j')})::BIGINT ELSE d.j END AS system_number, p.n, p.effect,
      strftime(d.day + to_seconds(${between(7 * 3600, 17 * 3600, draw('time', 'd.j'))}::BIGINT), '%Y-%m-%dT%H:%M:%S')
        || ${oneOf(offsets, draw('offset', 'p.crew'))} AS started_at,
      p.technician_id, p.gauge_accuracy_ratio, p.gauge_step_pa,
      CASE WHEN p.moves_on <= d.day THEN p.later_crew ELSE p.crew END AS crew_number,
      ${draw('crew known', 'd.j')} < 0.5 AS crew_known,
      ${oneOf(systemTypes, draw('system', 'd.j'))} AS system_type,
      ${oneOf(workTypes, draw('work', 'd.j'))} AS work_type,
      ${oneOf(refrigerants, draw('refrigerant', 'd.j'))} AS refrigerant
    FROM fleet_drawn d JOIN fleet_people p USING (n) ORDER BY d.j`);
}

const insertJobs = `INSERT INTO jobs (job_id, system_id, started_at, technician_id, crew_id, system_type, work_type, refrigerant,
    line_length_m, pump_id, hose_set_id, scale_id, scale_step_kg, gauge_id, gauge_accuracy_ratio, gauge_step_pa)
  SELECT job_id, 'X-' || system_number, started_at, technician_id, CASE WHEN crew_known THEN ${crewId('crew_number')} END, system_type, work_type,
    refrigerant, line_length_m, 'P-' || crew_number, 'H-' || crew_number, 'S-' || crew_number,
    [0.001, 0.005, 0.01][1 + crew_number % 3], 'G-' || n, gauge_accuracy_ratio, gauge_step_pa
  FROM fleet_jobs ORDER BY j`;

/** Nine of ten jobs were isolated, four of five held under pressure, and seven of ten run. */
function insertFacts(draw: Draw): string {
  const isolation = `CASE WHEN ${draw('isolated', 'j')} < 0.9 THEN round(${between(900, 3600, draw('isolation', 'j'))}) END`;
  const hold = `CASE WHEN ${draw('held', 'j')} < 0.8 THEN round(${between(300, 1200, draw('hold', 'j'))}) END`;
  return `INSERT INTO facts (job_id, isolation_start_s, isolation_end_s, smallest_leak_seen_pa_per_s,
      pressure_hold_start_s, pressure_settled_s, pressure_hold_end_s, smallest_drop_seen_pa, run_outdoor_k)
    SELECT job_id, isolation_s, isolation_s + round(${between(300, 1800, draw('rise', 'j'))}),
      CASE WHEN isolation_s IS NOT NULL THEN 0.001 * pow(100, ${draw('leak seen', 'j')}) END,
      hold_s, hold_s + 300, hold_s + round(${between(600, 86_400, draw('hold length', 'j'))}),
      CASE WHEN hold_s IS NOT NULL THEN 200 * pow(100, ${draw('drop seen', 'j')}) END,
      CASE WHEN ${draw('run', 'j')} < 0.7 THEN round(${between(283, 313, draw('outdoor', 'j'))}, 1) END
    FROM (SELECT j, job_id, ${isolation} AS isolation_s, ${hold} AS hold_s FROM fleet_jobs) ORDER BY j`;
}

/**
 * What is missing is missing for all checks of a group. What depends on the check stands in lists: to the engine a join has no
 * order, and it would lay down the rows as its threads come along.
 */
function insertFindings(draw: Draw): string {
  const groups = [...new Set(checks.map(({ group }) => group))];
  const group = `${list(checks.map((check) => groups.indexOf(check.group)))}[k + 1]`;
  const missing = draw('missing', `(j * 10 + ${group})`);
  const finding = `(j * ${checks.length} + k)`;
  const ofPair = draw('effect in check', `(n * ${checks.length} + k)`);
  const ratio = `${list(checks.map((_, k) => 0.07 + 0.025 * (k % 9)))}[k + 1]`;
  const flagRatio = `${ratio} * exp(effect + 0.3 * (${ofPair} - 0.5)) * (0.7 + coalesce(line_length_m, 17) / 55)`;
  const messages = checks.flatMap((check) => outcomes.map((outcome) => messageOf(check, outcome)));
  return `INSERT INTO findings (job_id, check_id, outcome, message_id, evidence, policy_id)
    SELECT job_id, ${list(checks.map(({ id }) => id))}[k + 1], ${list(outcomes)}[1 + outcome],
      ${list(messages)}[1 + ${outcomes.length} * k + outcome], '{}', '${asRecorded.id}'
    FROM (SELECT job_id, k, CASE WHEN missing < 0.1 THEN ${outcomes.indexOf('missing')}
        WHEN judged < 0.15 / 0.9 THEN ${outcomes.indexOf('not-evaluated')}
        WHEN flags >= flag_ratio THEN ${outcomes.indexOf('pass')}
        WHEN flags >= 0.5 * flag_ratio THEN ${outcomes.indexOf('suspect')} ELSE ${outcomes.indexOf('fail')} END AS outcome
      FROM (SELECT job_id, k, ${missing} AS missing, ${draw('judged', finding)} AS judged, ${draw('flags', finding)} AS flags,
          ${flagRatio} AS flag_ratio
        FROM (SELECT job_id, j, n, effect, line_length_m, unnest(range(${checks.length})) AS k FROM fleet_jobs)))`;
}

/** Half of the callbacks say what was found; three of ten of those are plainly something else. */
function insertCallbacks(draw: Draw): string {
  const j = 'right(job_id, 8)::BIGINT';
  const found = `CASE WHEN ${draw('cause known', j)} < 0.5 THEN
    ${oneOf(['leak at a flare', 'charge off', 'moisture in the circuit', 'condensate drain blocked', 'breaker tripped'], draw('cause', j))} END`;
  return `INSERT INTO callbacks (callback_id, system_id, reported_at, reason, cause_found, cost)
    SELECT 'K-' || right(job_id, 8), system_id, strftime(on_day, '%Y-%m-%dT12:00:00') || right(started_at, 6), 'not cooling',
      ${found}, round(${between(80, 600, draw('cost', j))})
    FROM (SELECT *, left(started_at, 10)::DATE + (1 - 365 * ln(${draw('callback', j)}) / hazard)::INTEGER AS on_day
      FROM (SELECT j.job_id, j.system_id, j.started_at, 0.035 * pow(2.5, coalesce(f.flags, 0)) AS hazard
        FROM jobs j LEFT JOIN (SELECT job_id, count(*) AS flags FROM findings
          WHERE check_id IN ('leaking', 'charge-off-target') AND outcome IN ('suspect', 'fail') GROUP BY ALL) f USING (job_id)))
    WHERE on_day < least(left(started_at, 10)::DATE + 365, DATE '${firstDay}' + ${days}) ORDER BY 1`;
}

/** Notes that facts and findings of all jobs are the newest: another judging by the same policy leaves them alone. */
async function markJudged(store: Store): Promise<void> {
  const defaults = checks.map(({ id, limits }) => [
    id,
    Object.entries(limits).map(([name, spec]) => [name, spec.default]),
  ]);
  const content = JSON.stringify({ policy: asRecorded, defaults });
  const digest = createHash('sha256').update(content).digest('hex');
  await store.run('INSERT INTO job_revisions SELECT job_id, 1 FROM facts');
  await store.run('INSERT INTO facts_made SELECT job_id, 1, $1 FROM facts', [methodVersion]);
  await store.run(`INSERT INTO findings_made SELECT job_id, '${asRecorded.id}', 1, $1, $2 FROM facts`, [
    methodVersion,
    digest,
  ]);
  await store.run(query('note-policy'), [asRecorded.id, content]);
}
