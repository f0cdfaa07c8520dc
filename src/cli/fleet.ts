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
  dryhold fleet --codes              people by code instead of by name
  dryhold fleet --json               every skill and every check, for machines`,
    )
    .action(async (what: string[], options: CommonOptions) => {
      const { codes = false, json = false } = options;
      const [{ fleetReport }, { skills }, { fleetText, ratesText }] = await Promise.all([
        import('../steps/fleet-report.ts'),
        import('../fleet/skill.ts'),
        import('./fleet-text.ts'),
      ]);
      const isAsked = what.length > 0;
      const progress = new Progress('reckoning', options);
      const report = await withStore(options.store, 'read', (store) =>
        fleetReport(store, {
          codes,
          ...(isAsked ? { rates: what } : json ? {} : { rates: skills.map(({ id }) => id) }),
          ...(json ? {} : { trainings: mostTrainings }),
          onProgress: (done, of, note) => progress.update(done, of, note),
        }),
      ).finally(() => progress.stop());
      if (json) sayJson(report);
      else say(isAsked ? ratesText(report) : fleetText(report));
    });
};
