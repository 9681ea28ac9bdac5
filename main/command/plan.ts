import { writePlanText } from '../../core/exchange';
import { reportOn } from '../../core/explain';
import { referee } from '../../core/referee';
import { demoShop, faultsOf, type Shop } from '../../core/shop';
import { ownZone, presentClock } from '../clock';
import { Refusal } from '../refusal';
import type { Given } from './arguments';
import type { Command } from './command';
import { demoShopOf, readPlanFile, readShopFile } from './files';
import { planText } from './plan-text';
import { limitOf, planned, SEARCH_LINE, SEARCH_OPTIONS, workersOf } from './search';
import { DONE, NO_PLAN, type Terminal } from './terminal';

const present = presentClock(null);

export const plan: Command = {
  name: 'plan',
  line: `SHOP.json|demo [--at TIME] ${SEARCH_LINE} [--released PLAN.json] [--json]`,
  summary:
    'Plans the shop: runs, rounds, what stands and what is late. W workers search side by side, usually one for each core; after N steps of each the plan is the same each time. --json prints a plan file.',
  words: ['a shop file, or demo'],
  options: {
    at: { type: 'string' },
    ...SEARCH_OPTIONS,
    released: { type: 'string' },
    json: { type: 'boolean' },
  },
  async run(given, terminal) {
    const limit = limitOf(given, 2);
    const workers = workersOf(given);
    const shop = await shopNamed(given, given.time('at'));
    const at = given.time('at') ?? shop.planFrom ?? present(shop.zone);
    const before = given.text('released');
    const released = before === null ? undefined : await readPlanFile(before);
    refuseFaults(shop, at, terminal);
    const made = await planned(terminal, workers, {
      shop,
      at,
      ...limit,
      ...(released === undefined ? {} : { released }),
    });
    if (made === null) return NO_PLAN;
    const verdict = referee(shop, made, released);
    if (!verdict.legal) {
      terminal.remark('The plan that was made breaks a rule and was thrown away, a defect of this program:');
      for (const breach of verdict.breaches) terminal.remark(`  ${breach.say}`);
      return NO_PLAN;
    }
    terminal.print(given.flag('json') ? writePlanText(made) : planText(shop, made, reportOn(shop, made)));
    return DONE;
  },
};

/** The shop of a file; for `demo` the demo shop of the week of `at`, or of the week to come. */
async function shopNamed(given: Given, at: string | null): Promise<Shop> {
  if (given.word(0) !== 'demo') return readShopFile(given.word(0));
  return at === null ? demoShop(present(ownZone()).slice(0, 10)) : demoShopOf(at);
}

function refuseFaults(shop: Shop, at: string, terminal: Terminal): void {
  const faults = faultsOf(shop, at);
  const errors = faults.filter((fault) => fault.level === 'error');
  if (errors.length > 0) throw new Refusal(errors);
  for (const warning of faults) terminal.remark(warning.say);
}
