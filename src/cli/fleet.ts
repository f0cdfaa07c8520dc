import { type AddCommand, type CommonOptions, Progress, say, sayJson } from './context.ts';
import { withStore } from './with-store.ts';

/** Trainings that are told in words: the latest. */
const mostTrainings = 12;

/** `dryhold fleet`: who needs what. */
export const addFleet: AddCommand = (program) => {
  program
    .command('fleet')
    .summary('who needs what: rates, who stands out, changes, trainings')
    .description(
      'Holds what was found on the jobs of each technician and crew against what is expected of such jobs: who stands out beyond chance, and whether it is laid to the person or to what a crew shares; what changed when; what trainings did. With a skill or a check, all rates of that one with their intervals.',
    )
    .argument('[what...]', 'skills or checks, such as rise or hold-short')
    .addHelpText(
      'after',
      `
examples:
  dryhold fleet
  dryhold fleet charge
  dryhold fleet hold-short no-rise-test
  dryhold fleet --codes              people and crews by code; gear and jobs keep their ids
  dryhold fleet --json               every skill and every check, for machines`,
    )
    .action(async (what: string[], options: CommonOptions) => {
      const { codes = false, json = false } = options;
      const [{ fleetRates, fleetReport }, { skills }, { fleetText, ratesText }] = await Promise.all([
        import('../steps/fleet-report.ts'),
        import('../fleet/skill.ts'),
        import('./fleet-text.ts'),
      ]);
      const progress = new Progress('reckoning', options);
      const onProgress = (done: number, of: number, note: string): void => progress.update(done, of, note);
      // The table of all technicians shows skills by what was flagged; of trainings the latest are told in words.
      const flagged = skills.filter(({ by }) => by === 'flagged').map(({ id }) => id);
      const forText = { rates: flagged, kinds: ['technician'], trainings: mostTrainings } as const;
      await withStore(options, 'read', async (store) => {
        if (what.length > 0) {
          const rates = await fleetRates(store, { codes, rates: what, onProgress }).finally(() => progress.stop());
          if (json) sayJson(rates);
          else say(ratesText(rates));
        } else {
          const report = await fleetReport(store, {
            codes,
            withInstruments: json,
            onProgress,
            ...(json ? {} : forText),
          }).finally(() => progress.stop());
          if (json) sayJson(report);
          else say(fleetText(report));
        }
      });
    });
};
