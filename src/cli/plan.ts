import { type Command, Option } from 'commander';
import { planAnswer } from '../facts/plan/plan-answer.ts';
import { type AddCommand, say, sayJson } from './context.ts';
import { addPageOptions, assertPageOptions, isPageAsked, writePage } from './page-output.ts';
import { planAnswerJson } from './plan-answer-json.ts';
import { planDefaults, planOfOptions, type PlanOptions, planQuestionOf } from './plan-options.ts';
import { planText } from './plan-text.ts';

/** Lengths that are told where none was asked for [s]: 5 min to 24 h. */
const usualLengthsS = [300, 600, 900, 1800, 3600, 7200, 14_400, 28_800, 86_400];

/** `dryhold plan`: what a pressure test and a rise test would see, by their length. */
export const addPlan: AddCommand = (program) => {
  const command = program
    .command('plan')
    .summary('how long a test must be to see a leak')
    .description(
      'Answers how small a leak a standing pressure test with nitrogen and a rise test would see, by their length; or how long each must be to see a leak of so much a year.',
    )
    .requiredOption('--refrigerant <designation>', 'what it is charged with: R-410A, r32, 454B')
    .option('--volume <volume>', 'inner volume of what is tested: 5L, 0.18ft3; or estimated, see below')
    .option('--leak <mass>', 'a leak to find the length for, as its loss in a year: 100g, 3.5oz')
    .option('--time <duration>', 'one length of test instead of a ladder: 15min, "1 h 30 min"')
    .addOption(new Option('--test <test>', 'only one of the tests').choices(['rise', 'nitrogen']))
    .option('--altitude <height>', 'of the site', planDefaults.altitude);
  addPageOptions(command, 'tables and chart')
    .optionsGroup('to estimate the volume instead, all four:')
    .option('--line <length>', 'length of the line set, one way: 15m, 50ft')
    .option('--liquid-line <diameter>', 'outer diameter of the liquid line: 3/8in, 9.52mm')
    .option('--suction-line <diameter>', 'outer diameter of the suction line: 3/4in')
    .option('--cooling <power>', 'rated cooling, by which the indoor coil is estimated: 8kW')
    .option('--with-outdoor-unit', 'the outdoor unit is tested too: it is not shut on its charge')
    .optionsGroup('pressure test:')
    .option(
      '--pressure <pressure>',
      'test pressure, within the equipment’s rating: 300psig, 20barg',
      planDefaults.pressure,
    )
    .option('--pressure-step <change>', 'step of the gauge', planDefaults.pressureStep)
    .option('--temperature <temperature>', 'of the gas', planDefaults.temperature)
    .option(
      '--temperature-uncertainty <change>',
      'how well its change over the test is known: 95 %, either way, on an even day',
      planDefaults.temperatureUncertainty,
    )
    .optionsGroup('rise test:')
    .option('--from <pressure>', 'pressure at valve-off', planDefaults.from)
    .option('--pumped <duration>', 'how long the pump was on before', planDefaults.pumped)
    .option('--vacuum-step <change>', 'step of the gauge', planDefaults.vacuumStep)
    .option('--vacuum-noise <share>', 'noise of a reading, as a share of it', planDefaults.vacuumNoise)
    .option('--reading-every <duration>', 'time between readings', planDefaults.readingEvery)
    .addHelpText(
      'after',
      `
The defaults are common practice, no source. Dry nitrogen only, never oxygen or air, through a
regulator and with a relief device, never above the equipment’s rating: for smaller leaks a test is
made longer, more pressure must not be used for that. All that is said of the pressure test holds
where a clamp logs the temperature of the pipe all through.

examples:
  dryhold plan --volume 5L --refrigerant R-410A
  dryhold plan --volume 5L --refrigerant R-410A --leak 100g
  dryhold plan --line 15m --liquid-line 3/8in --suction-line 3/4in --cooling 8kW --refrigerant R-32
  dryhold plan --volume 0.2ft3 --refrigerant r454b --time 15min --pressure 450psig
  dryhold plan --volume 8L --refrigerant R-32 --test rise --from 300micron --html plan.html`,
    )
    .action(async (options: PlanOptions, self: Command) => {
      assertPageOptions(options);
      const plan = planOfOptions(options);
      const { timeS, lossKgPerYear } = planQuestionOf(options);
      // A leak asked for is answered by itself; a page has room for both.
      const usualS = lossKgPerYear === undefined || isPageAsked(options) ? usualLengthsS : [];
      const durationsS = timeS === undefined ? usualS : [timeS];
      const answer = planAnswer(plan, { durationsS, lossKgPerYear });
      const assumed = new Set(
        Object.keys(planDefaults).filter((name) => self.getOptionValueSource(name) === 'default'),
      );
      if (isPageAsked(options)) {
        const { planPage } = await import('../pages/plan-page.ts');
        const reader = { units: options.units, dates: 'day-first' } as const;
        await writePage(planPage({ plan, answer, assumed, lossKgPerYear }, reader), options);
      }
      if (options.json) sayJson(planAnswerJson(plan, answer, lossKgPerYear));
      else if (!isPageAsked(options)) say(planText(plan, answer, { ...options, assumed, lossKgPerYear }));
    });
};
