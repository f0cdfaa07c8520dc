import type { ChargeSlip } from './charge-slips.ts';

/** How a technician works: probabilities, and multiples of the shop's usual. */
export interface Technician {
  readonly technicianId: string;
  readonly displayName: string;
  readonly hiredOn: string;
  readonly crewId: string;
  /** Share of the jobs, against a colleague's 1. */
  readonly workload: number;
  /** Goes straight from pumping to the break, without isolating. */
  readonly skipsRiseTest: number;
  /** Leaves the pump on for a minute or two instead of the hold. */
  readonly skipsHold: number;
  /** Goes to the pump without a pressure test. */
  readonly skipsPressureTest: number;
  /** Stands a pressure test for some ten minutes, whatever is asked. */
  readonly testsShort: number;
  /** Tests at the usual pressure, whatever the nameplate says. */
  readonly ignoresDesignPressure: number;
  /** Pressure that tests are made at, where the nameplate allows it [psi], counted from the air. */
  readonly testPressurePsi: number;
  readonly removesCores: number;
  readonly gaugeAtPump: number;
  readonly breaksWithNitrogen: number;
  /** Repairs and tests again after a failed rise test or a clear drop of a pressure test. */
  readonly retests: number;
  /** Multiples of how often joints leak and lines are wet. */
  readonly leakMultiple: number;
  readonly wetMultiple: number;
  readonly slips: Readonly<Partial<Record<ChargeSlip, number>>>;
  /** Change during the year: from that day on, these values instead. */
  readonly change?: { readonly fromDay: number; readonly skipsRiseTest?: number; readonly crewId?: string };
}

const usual = {
  workload: 1,
  skipsRiseTest: 0.05,
  skipsHold: 0.06,
  skipsPressureTest: 0.07,
  testsShort: 0.06,
  ignoresDesignPressure: 0.02,
  testPressurePsi: 400,
  removesCores: 0.7,
  gaugeAtPump: 0.08,
  breaksWithNitrogen: 0.25,
  retests: 0.75,
  leakMultiple: 1,
  wetMultiple: 1,
  slips: {
    'line-ignored': 0.01,
    'ounce-tenth-pound': 0.01,
    'hose-residual': 0.02,
    'other-line-size': 0.008,
    'other-refrigerant': 0.006,
    'kg-pound': 0.003,
    'factory-again': 0.003,
  },
} as const;

const who = (
  technicianId: string,
  displayName: string,
  hiredOn: string,
  crewId: string,
  own: Partial<Technician> = {},
): Technician => ({ ...usual, technicianId, displayName, hiredOn, crewId, ...own });

/** Twelve technicians; the names are word pairs and name nobody. */
export const technicians: readonly Technician[] = [
  who('t01', 'Larch Teapot', '2014-03-03', 'crew-alder', {
    workload: 1.4,
    breaksWithNitrogen: 0.5,
    retests: 0.95,
    testPressurePsi: 450,
  }),
  who('t02', 'Pebble Anvil', '2021-05-17', 'crew-alder', {
    slips: { ...usual.slips, 'from-zero': 0.45 },
    testPressurePsi: 500,
  }),
  who('t03', 'Gravel Otter', '2023-01-09', 'crew-alder', {
    workload: 0.7,
    testPressurePsi: 300,
    change: { fromDay: 150, crewId: 'crew-birch' },
  }),
  who('t04', 'Thistle Kettle', '2017-09-04', 'crew-birch', { testsShort: 0.6 }),
  who('t05', 'Slate Marmot', '2022-02-14', 'crew-birch', { skipsHold: 0.6, testPressurePsi: 350 }),
  who('t06', 'Walnut Sprocket', '2019-06-24', 'crew-birch', {
    skipsPressureTest: 0.5,
    change: { fromDay: 200, crewId: 'crew-dogwood' },
  }),
  who('t07', 'Bramble Gasket', '2012-10-01', 'crew-cedar', {
    workload: 1.3,
    removesCores: 0.95,
    retests: 0.95,
    ignoresDesignPressure: 0.8,
    testPressurePsi: 550,
  }),
  who('t08', 'Lichen Compass', '2020-04-06', 'crew-cedar', {
    skipsRiseTest: 0.55,
    testPressurePsi: 300,
    change: { fromDay: 215, skipsRiseTest: 0.15 },
  }),
  who('t09', 'Tundra Biscuit', '2024-08-19', 'crew-cedar', { workload: 0.8, leakMultiple: 3 }),
  who('t10', 'Copper Snail', '2016-11-28', 'crew-dogwood', {
    slips: { ...usual.slips, 'ounce-tenth-pound': 0.16 },
    testPressurePsi: 500,
  }),
  who('t11', 'Juniper Bucket', '2025-03-10', 'crew-dogwood', {
    workload: 0.6,
    wetMultiple: 3,
    removesCores: 0.25,
    gaugeAtPump: 0.35,
    testPressurePsi: 350,
  }),
  who('t12', 'Cobalt Lantern', '2018-07-16', 'crew-dogwood', {
    testPressurePsi: 450,
    change: { fromDay: 120, crewId: 'crew-alder' },
  }),
];

/** What holds for a technician on a day. */
export function onDay(technician: Technician, day: number): Technician {
  return technician.change !== undefined && day >= technician.change.fromDay
    ? { ...technician, ...technician.change }
    : technician;
}
