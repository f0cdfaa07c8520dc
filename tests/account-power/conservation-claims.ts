import type { Balance } from '../../src/accounts/balance.ts';
import type { CylinderWithWeighings } from '../../src/accounts/cylinder-record.ts';
import type { BookedLedger, Period } from '../../src/accounts/booked-ledger.ts';
import { Random } from '../../src/numerics/random.ts';
import { type Claim, claim } from '../truth/claim.ts';
import { firstDay, lastDay } from './drawn-shop.ts';
import { bookedIn, type JudgedShop, wholePeriod } from './judged-shop.ts';

const asNothingKg = 1e-6;
const period: Period = { fromDay: firstDay + 400, toDay: lastDay - 400 };

/** Whatever the weights say: nothing is lost, and nothing counted twice. */
export function conservationClaims(seed: number, shops: readonly JudgedShop[]): Claim[] {
  const books = shops.flatMap((shop) => {
    const shuffled = shuffledTies(new Random(seed, 3_000_000 + shop.number), shop.records);
    return [
      { shop, how: 'as written', booked: shop.booked, isWhole: true },
      { shop, how: 'ties in another order, cylinders too', booked: bookedIn(shuffled, wholePeriod), isWhole: true },
      { shop, how: 'a part of the time', booked: bookedIn(shuffled, period), isWhole: false },
    ];
  });
  type Book = (typeof books)[number];
  const all = (what: string, of: (book: Book) => readonly number[]): Claim =>
    claim(
      what,
      books.flatMap((book) =>
        of(book).map((kg) => ({
          plan: { seed, number: book.shop.number, kind: book.how },
          value: Math.abs(kg) <= asNothingKg,
          badness: Math.abs(kg) <= asNothingKg ? 0 : Math.abs(kg),
          says: `${kg} kg`,
        })),
      ),
      { least: 1 },
    );
  return [
    all('balances of every grouping add up to 0', ({ booked }) => balancesOf(booked).map(leftOver)),
    all('cylinders, refrigerants, crews and months add up to the total', ({ booked }) => apartFromTotal(booked)),
    all('people and sites add up to what was charged, recovered and unexplained in all', ({ booked }) =>
      byPeople(booked),
    ),
    all('a cylinder that was closed has nothing on hand', ({ booked }) =>
      booked.cylinders
        .filter(({ cylinder: { closedDay } }) => closedDay !== null && closedDay <= period.toDay)
        .map(({ balance }) => balance.onHandKg),
    ),
    all('every weighing is booked once, or kept apart', ({ shop, booked, isWhole }) =>
      isWhole ? [booked.weighings - shop.weighings.size] : [],
    ),
    all('what left a cylinder of which no other figure tells is what was written', ({ shop, booked, isWhole }) =>
      isWhole ? notAsWritten(shop, booked) : [],
    ),
  ];
}

function balancesOf({
  total,
  byRefrigerant,
  byMonth,
  byCrew,
  byTechnician,
  bySite,
  cylinders,
}: BookedLedger): Balance[] {
  const grouped = [byRefrigerant, byCrew, byTechnician, bySite].flatMap((one) => [...one.values()]);
  return [total, ...grouped, ...[...byMonth, ...cylinders].map(({ balance }) => balance)];
}

function leftOver(balance: Balance): number {
  const { openingKg, boughtKg, recoveredKg, chargedKg, returnedKg, unexplainedKg, untoldKg, onHandKg } = balance;
  return openingKg + boughtKg + recoveredKg - chargedKg - returnedKg - unexplainedKg - untoldKg - onHandKg;
}

const flows = ['boughtKg', 'recoveredKg', 'chargedKg', 'returnedKg', 'unexplainedKg', 'untoldKg'] as const;
const byHand = ['recoveredKg', 'chargedKg', 'unexplainedKg'] as const;

function apartFromTotal({ total, byRefrigerant, byMonth, byCrew, cylinders }: BookedLedger): number[] {
  const lines = cylinders.map(({ balance }) => balance);
  const months = byMonth.map(({ balance }) => balance);
  const whole = [...byRefrigerant.values()];
  // A month opens with what the one before had on hand: the last of each refrigerant has what is on hand in the end.
  const last = new Map(byMonth.map(({ refrigerant, balance }) => [refrigerant, balance.onHandKg]));
  return [
    ...flows.flatMap((key) => [lines, whole, [...byCrew.values()], months].map((one) => sum(one, key) - total[key])),
    ...(['openingKg', 'onHandKg'] as const).flatMap((key) =>
      [lines, whole, [...byCrew.values()]].map((one) => sum(one, key) - total[key]),
    ),
    [...last.values()].reduce((added, kg) => added + kg, 0) - total.onHandKg,
  ];
}

function byPeople({ total, byTechnician, bySite }: BookedLedger): number[] {
  return byHand.flatMap((key) => [byTechnician, bySite].map((one) => sum([...one.values()], key) - total[key]));
}

function sum(balances: readonly Balance[], key: keyof Balance): number {
  return balances.reduce((added, balance) => added + balance[key], 0);
}

/** Of cylinders whose weights nothing can mend, by the weighings that are booked in them. */
function notAsWritten({ records, weighings, moved, apart }: JudgedShop, { cylinders }: BookedLedger): number[] {
  const withOther = new Set(
    records.flatMap((each) => each.weighings.filter(({ otherKg }) => otherKg !== null).map((one) => one.weighingId)),
  );
  const inCylinder = Map.groupBy(
    [...weighings.values()].filter(({ weighingId }) => !apart.has(weighingId)),
    ({ weighingId, writtenFor }) => moved.get(weighingId) ?? writtenFor,
  );
  return cylinders.flatMap(({ cylinder, balance }) => {
    const own = inCylinder.get(cylinder.cylinderId) ?? [];
    if (own.length === 0 || own.some(({ weighingId }) => withOther.has(weighingId))) return [];
    const writtenKg = own.reduce((added, { startKg, endKg }) => added + startKg - endKg, 0);
    return [balance.chargedKg - balance.recoveredKg - writtenKg];
  });
}

/** The same records; cylinders, and weighings of one moment, in another order. */
function shuffledTies(random: Random, records: readonly CylinderWithWeighings[]): CylinderWithWeighings[] {
  const shuffled = <One>(all: readonly One[]): One[] =>
    all
      .map((one) => ({ one, at: random.uniform() }))
      .sort((a, b) => a.at - b.at)
      .map(({ one }) => one);
  return shuffled(records).map((each) => ({
    ...each,
    weighings: shuffled(each.weighings).sort((a, b) => (a.atMs ?? 0) - (b.atMs ?? 0)),
  }));
}
