import { Argument } from 'commander';
import { type AddCommand, type CommonOptions, say, sayJson } from './context.ts';

const shells = ['bash', 'zsh', 'fish'] as const;

/** `dryhold completion`: a script by which a shell completes commands, options and what they may be given. */
export const addCompletion: AddCommand = (program) => {
  program
    .command('completion')
    .summary('a script by which a shell completes commands, options and names')
    .description(
      'Prints a script that makes Tab complete commands, options, their choices, tables, refrigerants, skills and checks, and files elsewhere. It is made from the commands themselves, so it needs no care: the line below asks for it anew whenever a shell starts.',
    )
    .addArgument(new Argument('<shell>', 'which one').choices(shells))
    .addHelpText(
      'after',
      `
The line for the start file of your shell, where dryhold is a command that it finds:

  bash, in ~/.bashrc:                    eval "$(dryhold completion bash)"
  zsh, in ~/.zshrc:                      eval "$(dryhold completion zsh)"
  fish, in ~/.config/fish/config.fish:   dryhold completion fish | source`,
    )
    .action(async (shell: (typeof shells)[number], options: CommonOptions) => {
      const [{ completedCommands }, { completionScript }] = await Promise.all([
        import('./completed-commands.ts'),
        import('./completion-script.ts'),
      ]);
      const script = completionScript(shell, completedCommands(program));
      if (options.json) sayJson({ shell, script });
      else say(script.trimEnd());
    });
};
