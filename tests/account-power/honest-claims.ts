import { type Balance, unexplainedHalfWidthKg } from '../../src/accounts/balance.ts';
import { type Claim, claim } from '../truth/claim.ts';
import type { DrawnCylinder } from './drawn-cylinder.ts';
import { type JudgedCylinder, saysRemark } from './judged-shop.ts';

const holds = { least: 0.93 } as const;
const alarming = ['missing', 'too-much', 'mistyped', 'misplaced', 'negative'] as const;
const groupSize = 50;

/** Cylinders of which nothing was stolen, mistyped or written elsewhere: whether the interval holds the truth, and what is said of them. */
export function honestClaims(cylinders: readonly JudgedCylinder[]): Claim[] {
  const honest = cylinders.filter(({ cylinder }) => cylinder.planted === null && cylinder.weighings.length > 0);
  return [...coverage(honest), ...grouped(honest), ...alarms(honest)];
}

function coverage(honest: readonly JudgedCylinder[]): Claim[] {
  const isSupply = ({ cylinder: { record } }: JudgedCylinder) => record.kind === 'supply';
  const isWeighed = ({ cylinder: { record } }: JudgedCylinder) => record.closingKg !== null;
  const kinds: readonly [string, (one: JudgedCylinder) => boolean][] = [
    ['all', () => true],
    ['supply, closed and weighed', (one) => isSupply(one) && isWeighed(one)],
    ['supply, without a tare on record', (one) => isSupply(one) && one.cylinder.record.tareKg === null],
    ['supply, open or closed without a weight', (one) => isSupply(one) && !isWeighed(one)],
    ['recovery, closed and weighed', (one) => !isSupply(one) && isWeighed(one)],
    ['recovery, open or closed without a weight', (one) => !isSupply(one) && !isWeighed(one)],
  ];
  return kinds.map(([kind, isOf]) =>
    claim(
      `honest cylinders, ${kind}: the interval of what is unexplained holds 0`,
      honest.filter(isOf).map(({ plan, cylinder, line }) => {
        const { unexplainedKg } = line.balance;
        const halfWidthKg = unexplainedHalfWidthKg(line.balance);
        // Where no gap can be seen nothing is unexplained, and the interval may be of no width.
        const widths = unexplainedKg === 0 ? 0 : Math.abs(unexplainedKg) / halfWidthKg;
        const said = line.remarks.map(saysRemark).join(', ');
        return {
          plan,
          value: widths <= 1,
          badness: widths - 1,
          says: `${unexplainedKg.toFixed(3)} ± ${halfWidthKg.toFixed(3)} kg; ${[...cylinder.marks].join(', ')}; ${said}`,
        };
      }),
      holds,
    ),
  );
}

/** The cylinders of a crew, fifty by fifty, in the order in which they came. */
function grouped(honest: readonly JudgedCylinder[]): Claim[] {
  const closed = honest.filter(({ cylinder: { record } }) => record.closingKg !== null && record.kind === 'supply');
  const byCrew = Map.groupBy(closed, ({ plan, line }) => (line.crewId === null ? '' : `${plan.number} ${line.crewId}`));
  byCrew.delete('');
  const groups = [...byCrew.values()].flatMap((own) =>
    Array.from({ length: Math.floor(own.length / groupSize) }, (_, at) =>
      own.slice(at * groupSize, (at + 1) * groupSize),
    ),
  );
  const told = groups.map((group) => ({ plan: group[0].plan, balance: sumOf(group.map(({ line }) => line.balance)) }));
  return [
    claim(
      `${groupSize} honest supply cylinders of one crew, closed and weighed: the interval holds 0`,
      told.map(({ plan, balance }) => {
        const widths = Math.abs(balance.unexplainedKg) / unexplainedHalfWidthKg(balance);
        return { plan, value: widths <= 1, badness: widths - 1, says: `${balance.unexplainedKg.toFixed(2)} kg` };
      }),
      holds,
    ),
    claim(
      'the same: half width over what was charged, median',
      told.map(({ plan, balance }) => ({
        plan,
        value: unexplainedHalfWidthKg(balance) / balance.chargedKg,
        badness: 0,
        says: '',
      })),
      { write: (value) => `${(100 * value).toFixed(2)} %` },
    ),
  ];
}

function sumOf(balances: readonly Balance[]): Balance {
  const sum = { ...balances[0] };
  for (const each of balances.slice(1)) for (const key of Object.keys(sum) as (keyof Balance)[]) sum[key] += each[key];
  return sum;
}

const pulls = ['pull', 'cap', 'hose'] as const;
const isOnOne = ({ marks, record }: DrawnCylinder): boolean =>
  record.tareKg !== null && !pulls.some((mark) => marks.has(mark)) && !marks.has('other scale');

/** What is not by the book in an honest cylinder. */
const circumstances: readonly [string, (cylinder: DrawnCylinder) => boolean][] = [
  ['always whole on one scale, nothing pulled at it', (one) => isOnOne(one) && one.marks.size === 0],
  ['some weighings on a scale set to 0, nothing else', (one) => isOnOne(one) && one.marks.has('zero')],
  ['some weighings with the empty weight taken off, nothing else', (one) => isOnOne(one) && one.marks.has('content')],
  ['pulled at, or with a cap or hose on', ({ marks }) => pulls.some((mark) => marks.has(mark))],
  ['on several scales', ({ marks }) => marks.has('other scale')],
  ['without a tare on record', ({ record }) => record.tareKg === null],
];

function alarms(honest: readonly JudgedCylinder[]): Claim[] {
  const alarmsOf = ({ cylinder, line, shop }: JudgedCylinder): string[] => [
    ...line.remarks.map(({ id }) => id).filter((id) => (alarming as readonly string[]).includes(id)),
    ...(cylinder.weighings.some(({ weighingId }) => shop.moved.has(weighingId)) ? ['misplaced'] : []),
    ...(cylinder.weighings.some(({ weighingId }) => shop.apart.has(weighingId)) ? ['apart'] : []),
  ];
  const told = honest.map((one) => ({ one, alarms: alarmsOf(one) }));
  const share = (what: string, of: typeof told, ids: readonly string[], most?: number): Claim =>
    claim(
      `honest cylinders: ${what}`,
      of.map(({ one: { plan, cylinder, line }, alarms: own }) => ({
        plan,
        value: own.some((id) => ids.includes(id)),
        badness: own.some((id) => ids.includes(id)) ? Math.abs(line.balance.unexplainedKg) + 1e-9 : 0,
        says: `${line.remarks.map(saysRemark).join(', ')}; ${[...cylinder.marks].join(', ')}`,
      })),
      most === undefined ? {} : { most },
    );
  return [
    share('anything is remarked', told, alarming, 0.02),
    ...circumstances.map(([kind, isOf]) =>
      share(
        `anything is remarked, ${kind}`,
        told.filter(({ one: { cylinder } }) => isOf(cylinder)),
        alarming,
      ),
    ),
    ...alarming.map((id) => share(`something is called ${id}`, told, [id])),
    share('a weighing is kept apart', told, ['apart'], 0.005),
  ];
}
