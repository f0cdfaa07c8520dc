import type { Argument, Command, Option } from 'commander';
import { z } from 'zod';
import { usualWaitOfRun } from '../wait-option.ts';
import { wholeNumber } from '../whole-number.ts';

/** Commands that are no steps: what asks in SQL, is for a person at a desk, or would begin a run within a run. */
const noSteps: ReadonlySet<string> = new Set(['completion', 'demo', 'map', 'query', 'run']);

/** What a step says beside `do` and what its command takes. No command may have an option or an argument of such a name. */
const stepWords = {
  or: 'go-on: the steps after it are run even where it breaks off, such as where a folder is empty or away; its status still counts',
  into: 'the file that what it prints goes into, made with its folder, and written whole or not at all',
} as const;

/** The commands that may be steps. */
export function stepCommands(program: Command): Command[] {
  return program.commands.filter((command) => !noSteps.has(command.name()));
}

/** The options that a step may name: all but help, and what would never end. */
export function stepOptions(command: Command): Option[] {
  return command.options.filter((option) => option.name() !== 'watch');
}

/** Whether a step may say where its output goes: its command has no option for it. */
function mayGoInto(command: Command): boolean {
  return !command.options.some((option) => option.name() === 'out');
}

/**
 * The schema of declared runs, made from the commands as they are declared: a step takes the arguments and options of its
 * command by their long names.
 *
 * @example runSchema(dryholdProgram())
 */
export function runSchema(program: Command) {
  const [first, ...others] = stepCommands(program).map(stepSchema);
  return z
    .strictObject({
      $schema: z.string().optional(),
      name: z
        .string()
        .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'small letters, figures and hyphens only')
        .describe('what the log calls it: small letters, figures and hyphens'),
      title: text().describe('what it is for, in one sentence; the log begins with it'),
      store: text().optional().describe('where the store lies; ./dryhold-store without it'),
      log: text().optional().describe('a file that the log is added to, such as runs.log or runs-{month}.log'),
      watch: z
        .array(text())
        .min(1)
        .optional()
        .describe('folders: the run is repeated whenever files came into them, each once it is copied whole'),
      steps: z
        .array(z.discriminatedUnion('do', [first, ...others]))
        .min(1)
        .describe('commands with their arguments and options by their long names, in the order in which they are run'),
    })
    .describe(
      'A declared run: commands, one after the other. Paths count from the folder of this file. Texts of steps may hold the day: {today}, {week}, {month}, {last-month}, {last-month-start}, {last-month-end}.',
    );
}

/** The schema of a step. */
export function stepSchema(command: Command) {
  return z
    .strictObject({
      do: z.literal(command.name()).describe(command.summary()),
      ...Object.fromEntries(
        command.registeredArguments.map((argument) => [argument.name(), argumentSchema(command, argument)]),
      ),
      ...Object.fromEntries(stepOptions(command).map((option) => [option.name(), optionSchema(option)])),
      or: z.literal('go-on').optional().describe(stepWords.or),
      ...(mayGoInto(command) && { into: text().optional().describe(stepWords.into) }),
    })
    .describe(command.summary());
}

function argumentSchema(command: Command, argument: Argument): z.ZodType {
  const value = argument.variadic ? list(text()) : text();
  const described = value.describe(argument.description || `of dryhold ${command.name()}`);
  return argument.required ? described : described.optional();
}

function optionSchema(option: Option): z.ZodType {
  const value = option.isBoolean() ? z.boolean() : valueSchema(option);
  const usual: unknown = option.name() === 'wait' ? usualWaitOfRun : option.defaultValue;
  const described = (option.variadic ? list(value) : value).meta({
    description: option.description,
    ...(usual !== undefined && { default: usual }),
  });
  return option.mandatory && option.defaultValue === undefined ? described : described.optional();
}

function valueSchema(option: Option): z.ZodType {
  if (option.argChoices !== undefined) return z.enum(option.argChoices);
  return option.parseArg === wholeNumber ? z.int().min(1) : text();
}

/** Neither a path nor what a process is started with may hold U+0000. */
function text() {
  return z
    .string()
    .min(1)
    .refine((value) => !value.includes('\0'), 'holds the character U+0000; leave it out');
}

function list(value: z.ZodType) {
  return z.array(value).min(1);
}
