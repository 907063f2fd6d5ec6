/** `hearthtable schema`: the JSON Schema of the meal file, for editors. */
import type { Command } from 'commander';
import { problemJsonSchema } from '../../src/problem/schema-json.js';
import { EXIT } from '../exit.js';
import { helpText } from '../help-text.js';
import type { Finish, Io } from '../io.js';

export function addSchema(program: Command, io: Io, finish: Finish): void {
  program
    .command('schema')
    .description('print the JSON Schema of the meal file')
    .addHelpText(
      'after',
      helpText(
        io,
        `
Editors that know JSON Schema complete and check the file with it.

Examples:
  hearthtable schema > hearthtable.schema.json
  Then, as the first line of a meal:
  # yaml-language-server: $schema=./hearthtable.schema.json`,
      ),
    )
    .action(() => {
      io.stdout.write(`${JSON.stringify(problemJsonSchema(), null, 2)}\n`);
      finish(EXIT.plan);
    });
}
