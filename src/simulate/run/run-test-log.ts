import { ClampReading, shownByGauge, stepped } from './run-instruments.ts';
import { type Course, courseKeys, RunCourse } from './run-course.ts';
import { restPressure } from './rest-pressure.ts';
import { type RunColumn, type RunReadings, type RunTestLog, type RunTestOptions, runColumns } from './run-test.ts';
import { RunWeather } from './run-weather.ts';
import { WorkingFluid } from './working-fluid.ts';

/** Nearer than that to where it tends to, it is steady; shorter, it is no steady state. */
const STEADY_WITHIN_K = 0.5;
const SHORTEST_STEADY_S = 60;

/** Simulates a run test: at rest, the start, what the machine tends to, and what the instruments show of it. */
export function simulateRunTest(options: RunTestOptions): RunTestLog {
  const { random, restS, durationS, intervalS, instruments, hunting, upset, atmospherePa = 101_325 } = options;
  const { curve } = new WorkingFluid(options.refrigerant);
  const course = new RunCourse(options);
  const weather = new RunWeather(options);
  const rest = restPressure(options);
  const count = Math.floor(durationS / intervalS) + 1;
  const names = ['elapsedS', ...runColumns] as const;
  const readings = Object.fromEntries(names.map((name) => [name, new Float64Array(count).fill(Number.NaN)]));
  const columns = readings as unknown as RunReadings;

  // How fast pressures and lines follow, and how far the start goes beyond.
  const followS: Course = { lnSuction: 0, lnLiquid: 0, suctionC: 0, liquidC: 0, supplyC: 0, compressorW: 8 };
  followS.lnSuction = random.uniform(60, 120);
  followS.lnLiquid = random.uniform(60, 150);
  followS.suctionC = random.uniform(80, 200);
  followS.liquidC = random.uniform(80, 240);
  followS.supplyC = random.uniform(60, 150);
  const dips = { suction: random.uniform(0.08, 0.3), liquid: random.uniform(0.01, 0.06) };
  const huntPhase = random.uniform(0, 2 * Math.PI);
  const suctionClamp = new ClampReading(instruments.suctionClamp);
  const liquidClamp = new ClampReading(instruments.liquidClamp);
  if (upset?.kind === 'clamp-off') (upset.clamp === 'suction' ? suctionClamp : liquidClamp).offFromS = upset.atS;

  const superheats = new Float64Array(count);
  const subcoolings = new Float64Array(count);
  const far = new Uint8Array(count);
  let is: Course | undefined;
  for (let at = 0; at < count; at++) {
    const atS = at * intervalS;
    weather.advance(atS, atS - restS);
    const { outdoorC, indoorC } = weather;
    const running = atS >= restS;
    const tends = course.at(atS, outdoorC - options.outdoorC, indoorC - options.indoorC);
    if (!running || is === undefined) {
      const lnPa = Math.log(rest.at(atS));
      const lines = { suctionC: rest.lineC(atS, 0.5), liquidC: rest.lineC(atS, 0.8), supplyC: indoorC - 0.3 };
      is = { lnSuction: lnPa, lnLiquid: lnPa, ...lines, compressorW: 0 };
    } else for (const key of courseKeys) is[key] += (tends[key] - is[key]) * (1 - Math.exp(-intervalS / followS[key]));
    const sinceS = Math.max(0, atS - restS);
    const bump = (peakS: number) => (sinceS / peakS) * Math.exp(1 - sinceS / peakS);
    const swing = running && hunting !== undefined ? Math.sin(huntPhase + (2 * Math.PI * atS) / hunting.periodS) : 0;
    const huntK = swing * (hunting?.amplitudeK ?? 0) * Math.min(1, sinceS / 300);
    const suctionPa = Math.exp(is.lnSuction - dips.suction * bump(40) - 0.006 * huntK);
    const liquidPa = Math.exp(is.lnLiquid + dips.liquid * bump(120) + 0.001 * huntK);
    const dewC = curve.dewK(suctionPa) - 273.15;
    const bubbleC = curve.bubbleK(liquidPa) - 273.15;
    // Neither line can be on the other side of saturation, whatever follows slowly.
    const suctionC = running ? Math.max(dewC, is.suctionC + 0.8 * huntK) : is.suctionC;
    const twoPhase = options.meteringLocation === 'outdoor' && options.heating !== true;
    const liquidC = running && !twoPhase ? Math.min(bubbleC, is.liquidC) : is.liquidC;
    superheats[at] = suctionC - dewC;
    subcoolings[at] = bubbleC - liquidC;
    const tendsSuperheatK = Math.max(0, tends.suctionC + 273.15 - curve.dewK(Math.exp(tends.lnSuction)));
    const tendsSubcoolingK = curve.bubbleK(Math.exp(tends.lnLiquid)) - tends.liquidC - 273.15;
    const superheatGapK = superheats[at] - tendsSuperheatK - 1.1 * huntK;
    const subcoolingGapK = twoPhase ? 0 : subcoolings[at] - Math.max(0, tendsSubcoolingK);
    far[at] =
      !running || Math.abs(superheatGapK) > STEADY_WITHIN_K || Math.abs(subcoolingGapK) > STEADY_WITHIN_K ? 1 : 0;

    columns.elapsedS[at] = Math.round(atS * 10) / 10;
    columns.suctionPa[at] = shownByGauge(random, instruments.suction, suctionPa, atmospherePa, atS);
    columns.liquidPa[at] = shownByGauge(random, instruments.liquid, liquidPa, atmospherePa, atS);
    columns.suctionLineC[at] = suctionClamp.read(random, suctionC, outdoorC, atS, intervalS);
    columns.liquidLineC[at] = liquidClamp.read(random, liquidC, outdoorC, atS, intervalS);
    const air = [outdoorC, indoorC, weather.indoorWetBulbC, is.supplyC, indoorC] as const;
    const exact = instruments.suctionClamp.noiseK === 0;
    const airColumns = ['outdoorC', 'indoorC', 'indoorWetBulbC', 'supplyC', 'returnC'] as const;
    for (const [index, name] of airColumns.entries()) {
      const shownC = air[index] + instruments.airBiasK[index] + (exact ? 0 : random.normal(0, 0.05));
      columns[name][at] = stepped(shownC, exact ? 0 : 0.1);
    }
    columns.compressorW[at] = running
      ? stepped(is.compressorW * (exact ? 1 : random.normal(1, 0.006)), exact ? 0 : 10)
      : 0;
  }
  for (const name of options.blank ?? new Set<RunColumn>()) columns[name].fill(Number.NaN);
  const shown: RunReadings =
    upset?.kind === 'swapped' ? { ...columns, suctionPa: columns.liquidPa, liquidPa: columns.suctionPa } : columns;

  const from = far.lastIndexOf(1) + 1;
  const lastChange = Math.ceil(course.lastChangeS / intervalS);
  const steady = Math.max(from, lastChange);
  const isSteady = options.heating !== true && (count - 1 - steady) * intervalS >= SHORTEST_STEADY_S;
  const mean = (of: Float64Array) => of.subarray(steady).reduce((sum, one) => sum + one, 0) / (count - steady);
  return {
    readings: shown,
    modes: course.modes,
    trueSuperheatsK: superheats,
    trueSubcoolingsK: subcoolings,
    truth: {
      ...(isSteady && {
        superheatK: mean(superheats),
        ...(options.meteringLocation !== 'outdoor' && { subcoolingK: mean(subcoolings) }),
        steadyStartS: columns.elapsedS[steady],
        steadyEndS: columns.elapsedS[count - 1],
      }),
      pattern: options.pattern ?? 'none',
      refrigerant: options.refrigerant,
      restPa: rest.at(restS),
      restK: rest.coldestK(restS),
      ...(upset !== undefined && { upset: upset.kind }),
    },
  };
}
