/** `hearthtable completion SHELL`: a script that completes commands, options and their values, made from the program itself. */
import type { Command, Option } from 'commander';
import { EXIT } from '../exit.js';
import { helpText } from '../help-text.js';
import type { Finish, Io } from '../io.js';

const SHELLS = ['bash', 'zsh', 'fish'] as const;
type Shell = (typeof SHELLS)[number];

export function addCompletion(program: Command, io: Io, finish: Finish): void {
  const command = program.command('completion').description('print a completion script for your shell');
  command
    .addArgument(command.createArgument('<shell>', 'bash, zsh or fish').choices(SHELLS))
    .addHelpText(
      'after',
      helpText(
        io,
        `
Examples:
  hearthtable completion bash >> ~/.bashrc
  hearthtable completion zsh > ~/.zsh/_hearthtable   (a folder of your fpath)
  hearthtable completion fish > ~/.config/fish/completions/hearthtable.fish`,
      ),
    )
    .action((shell: Shell) => {
      io.stdout.write(SCRIPTS[shell](program));
      finish(EXIT.plan);
    });
}

const SCRIPTS: Readonly<Record<Shell, (program: Command) => string>> = { bash, zsh, fish };

/** What kind of path an option takes, by how its value is called. */
const pathIn = (option: Option): string | undefined => /<(dir|json)>/.exec(option.flags)?.[1];
const ZSH_PATHS: Readonly<Record<string, string>> = { dir: '_files -/', json: '_files' };

const optionsOf = (command: Command): Option[] => command.options.filter((option) => option.long && !option.hidden);
const longs = (command: Command): string => [...optionsOf(command).map((option) => option.long), '--help'].join(' ');

function bash(program: Command): string {
  const cases = program.commands.map((command) => {
    const files = command.registeredArguments.length > 0 ? '' : ' files=""';
    return `    ${command.name()}) words="${longs(command)}"${files} ;;`;
  });
  const values = new Map<string, string>();
  for (const command of program.commands) {
    for (const option of optionsOf(command))
      if (option.argChoices) values.set(option.long!, option.argChoices.join(' '));
  }
  const choices = [...values].map(
    ([option, words]) => `    ${option}) COMPREPLY=($(compgen -W "${words}" -- "$current")); return ;;`,
  );
  return `# bash completion for hearthtable
_hearthtable() {
  local current="\${COMP_WORDS[COMP_CWORD]}" words="" files="yes"
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "${program.commands.map((command) => command.name()).join(' ')} --help --version" -- "$current"))
    return
  fi
  case "\${COMP_WORDS[COMP_CWORD-1]}" in
${choices.join('\n')}
    completion) COMPREPLY=($(compgen -W "${SHELLS.join(' ')}" -- "$current")); return ;;
  esac
  case "\${COMP_WORDS[1]}" in
${cases.join('\n')}
  esac
  if [[ "$current" == -* ]]; then
    COMPREPLY=($(compgen -W "$words" -- "$current"))
  elif [ -n "$files" ]; then
    compopt -o filenames 2>/dev/null
    COMPREPLY=($(compgen -f -- "$current"))
  fi
}
complete -F _hearthtable hearthtable
`;
}

const quoted = (text: string): string =>
  text.replaceAll("'", '’').replaceAll('[', '(').replaceAll(']', ')').replaceAll(':', ' -');

function zsh(program: Command): string {
  const commands = program.commands.map((command) => `    '${command.name()}:${quoted(command.description())}'`);
  const cases = program.commands.map((command) => {
    const options = optionsOf(command).map((option) => {
      const asked = option.argChoices ? `(${option.argChoices.join(' ')})` : (ZSH_PATHS[pathIn(option) ?? ''] ?? '');
      const value = option.argChoices || option.required ? `:value:${asked}` : '';
      return `      '${option.long}[${quoted(option.description)}]${value}'`;
    });
    const takes = command.registeredArguments.length > 0;
    const rest = command.name() === 'completion' ? `'1:shell:(${SHELLS.join(' ')})'` : "'*:file:_files'";
    const words = [...options, ...(takes ? [`      ${rest}`] : [])];
    return `    ${command.name()})\n      _arguments \\\n${words.join(' \\\n')}\n      ;;`;
  });
  return `#compdef hearthtable
_hearthtable() {
  local -a commands
  commands=(
${commands.join('\n')}
  )
  if (( CURRENT == 2 )); then
    _describe 'command' commands
    return
  fi
  local command=$words[2]
  shift words
  (( CURRENT-- ))
  case $command in
${cases.join('\n')}
  esac
}
if [ "$funcstack[1]" = "_hearthtable" ]; then
  _hearthtable "$@"
else
  compdef _hearthtable hearthtable
fi
`;
}

function fish(program: Command): string {
  const names = program.commands.map((command) => command.name()).join(' ');
  const none = `not __fish_seen_subcommand_from ${names}`;
  const lines = program.commands.flatMap((command) => {
    const seen = `__fish_seen_subcommand_from ${command.name()}`;
    return [
      `complete -c hearthtable -f -n '${none}' -a ${command.name()} -d '${quoted(command.description())}'`,
      ...optionsOf(command).map((option) => {
        const value = option.argChoices
          ? ` -x -a '${option.argChoices.join(' ')}'`
          : !option.required
            ? ''
            : pathIn(option)
              ? ' -r -F'
              : ' -x';
        return `complete -c hearthtable -n '${seen}' -l ${option.long!.slice(2)}${value} -d '${quoted(option.description)}'`;
      }),
    ];
  });
  const shells = `complete -c hearthtable -f -n '__fish_seen_subcommand_from completion' -a '${SHELLS.join(' ')}'`;
  return `# fish completion for hearthtable\n${[...lines, shells].join('\n')}\n`;
}
