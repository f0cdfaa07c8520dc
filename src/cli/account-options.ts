import { type Command, Option } from 'commander';
import { leakRateMethods } from '../accounts/appliance-leaks.ts';
import { gwpVintages } from '../accounts/gwp.ts';
import { isoDate } from './iso-date.ts';

/** By whose global warming potentials masses are told as carbon dioxide. */
export function addVintage(command: Command): Command {
  return command.addOption(
    new Option('--gwp <vintage>', 'global warming potentials: IPCC AR4, AR5, AR6, or as 40 CFR 84 prints them')
      .choices(gwpVintages)
      .default('us'),
  );
}

/**
 * How rules are asked.
 *
 * @param usualDay the day on which they are asked where nobody says
 */
export function addRuleOptions(command: Command, usualDay: string): Command {
  return command
    .option('--on <day>', `the day on which rules are asked (default: ${usualDay})`, isoDate)
    .addOption(
      new Option('--method <method>', 'which leak rate is held against triggers: one for all appliances of a facility')
        .choices(leakRateMethods)
        .default('annualising'),
    )
    .addOption(
      new Option('--jurisdiction <whose>', 'whose rules apply to appliances whose record does not say').choices([
        'US',
        'EU',
      ]),
    );
}
