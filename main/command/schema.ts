import { shopJsonSchema } from '../../core/shop';
import type { Command } from './command';
import { DONE } from './terminal';

export const schema: Command = {
  name: 'schema',
  line: '',
  summary: 'Prints the JSON Schema of the shop file.',
  words: [],
  options: {},
  async run(_, terminal) {
    terminal.print(JSON.stringify(shopJsonSchema(), null, 2));
    return DONE;
  },
};
