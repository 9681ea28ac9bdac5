import { referee } from '../../core/referee';
import type { Command } from './command';
import { readPlanFile } from './files';
import { shopFor } from './shop-for-plan';
import { DONE, NO_PLAN } from './terminal';

export const check: Command = {
  name: 'check',
  line: 'SHOP.json|demo PLAN.json [--released PLAN.json] [--json]',
  summary: 'Says whether a plan is legal for a shop, or which rules it breaks.',
  words: ['a shop file, or demo', 'a plan file'],
  options: { released: { type: 'string' }, json: { type: 'boolean' } },
  async run(given, terminal) {
    const plan = await readPlanFile(given.word(1));
    const released = given.text('released');
    const before = released === null ? undefined : await readPlanFile(released);
    const verdict = referee(await shopFor(given.word(0), plan), plan, before);
    if (given.flag('json')) terminal.print(JSON.stringify(verdict, null, 2));
    else if (verdict.legal) {
      terminal.print(`Legal: ${plan.runs.length} runs planned, ${plan.left.length} left out.`);
      for (const conflict of verdict.conflicts) terminal.print(`Reported lock that could not hold: ${conflict.say}`);
    } else for (const breach of verdict.breaches) terminal.print(`Rule ${breach.rule}: ${breach.say}`);
    return verdict.legal ? DONE : NO_PLAN;
  },
};
