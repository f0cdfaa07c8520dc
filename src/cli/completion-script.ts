import type { CompletedCommand, CompletedOption } from './completed-commands.ts';

/**
 * A script that makes a shell complete `dryhold`: commands, options and closed lists by their words, files elsewhere.
 *
 * @param shell bash from version 4 on, without further packages; zsh, which loads the one for bash; fish
 */
export function completionScript(shell: 'bash' | 'zsh' | 'fish', commands: readonly CompletedCommand[]): string {
  if (shell === 'fish') return fishScript(commands);
  return shell === 'zsh' ? `${zshStart}\n${bashScript(commands)}` : bashScript(commands);
}

const flagsOf = (options: readonly CompletedOption[]): string => options.map(({ flag }) => flag).join(' ');

/** No name is one that zsh keeps for itself, such as `words` or `options`. */
const bashScript = (commands: readonly CompletedCommand[]): string => `# Completes dryhold. Made by: dryhold completion
_dryhold() {
  local current=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD - 1]} flags= valued= names= places=0 place=0 at
  local values= offered=
  # --units=ip comes as three words.
  if [[ $current == = ]]; then current=; elif [[ $before == = ]]; then before=\${COMP_WORDS[COMP_CWORD - 2]}; fi
  case \${COMP_WORDS[1]} in
${commands.map(bashCommand).join('\n')}
  esac
  if ((COMP_CWORD == 1)); then
    offered='${commands.map(({ name }) => name).join(' ')} --help --version'
  elif [[ " $valued " == *" $before "* ]]; then
    offered=$values
  elif [[ $current == -* ]]; then
    offered=$flags
  else
    for ((at = 2; at < COMP_CWORD; at++)); do
      if [[ " $valued " == *" \${COMP_WORDS[at]} "* ]]; then
        if [[ \${COMP_WORDS[at + 1]} == = ]]; then at=$((at + 2)); else at=$((at + 1)); fi
      elif [[ \${COMP_WORDS[at]} != -* ]]; then
        place=$((place + 1))
      fi
    done
    if ((place < places)); then offered=$names; fi
  fi
  # Files are for where no list is; zsh has no compopt, and shows none beside a list.
  if [[ -n $offered ]]; then compopt +o default 2> /dev/null; fi
  COMPREPLY=($(compgen -W "$offered" -- "$current"))
}
complete -o default -F _dryhold dryhold
`;

function bashCommand({ name, options, choices, repeats }: CompletedCommand): string {
  const valued = options.filter(({ takesValue }) => takesValue);
  const lists = options.filter((option) => option.choices.length > 0);
  return [
    `    ${name})`,
    `      flags='${flagsOf(options)}'`,
    `      valued='${flagsOf(valued)}'`,
    ...(choices.length > 0 ? [`      names='${choices.join(' ')}' places=${repeats ? 99 : 1}`] : []),
    ...(lists.length > 0
      ? [
          '      case $before in',
          ...lists.map((option) => `        ${option.flag}) values='${option.choices.join(' ')}' ;;`),
          '      esac',
        ]
      : []),
    '      ;;',
  ].join('\n');
}

const zshStart = `(( $+functions[compdef] )) || { autoload -Uz compinit && compinit }
autoload -Uz bashcompinit && bashcompinit`;

const fishScript = (commands: readonly CompletedCommand[]): string => `# Completes dryhold. Made by: dryhold completion
${commands.map(({ name, about }) => `complete -c dryhold -n __fish_use_subcommand -f -a ${name} -d ${fishText(about)}`).join('\n')}
${commands.flatMap(fishCommand).join('\n')}
`;

function fishCommand({ name, options, choices, repeats }: CompletedCommand): string[] {
  const within = `__fish_seen_subcommand_from ${name}`;
  const first = repeats ? within : `${within}; and not __fish_seen_subcommand_from ${choices.join(' ')}`;
  return [
    ...(choices.length > 0 ? [`complete -c dryhold -n '${first}' -f -a '${choices.join(' ')}'`] : []),
    ...options.map((option) => {
      const lists = option.choices.length > 0;
      const value = lists ? ` -x -a '${option.choices.join(' ')}'` : option.takesValue ? ' -r -F' : '';
      return `complete -c dryhold -n '${within}' -l ${option.flag.slice(2)}${value} -d ${fishText(option.about)}`;
    }),
  ];
}

/** A text as fish takes it word for word. */
function fishText(text: string): string {
  return `'${text.replaceAll(/['\\]/g, (sign) => `\\${sign}`)}'`;
}
