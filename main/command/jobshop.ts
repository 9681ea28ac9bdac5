import { basename, extname } from 'node:path';
import { type JobShop, jobShopAsShop, readJobShop } from '../../core/exchange';
import { referee } from '../../core/referee';
import type { Plan } from '../../core/shop';
import { localAt } from '../../core/time';
import type { Command } from './command';
import { readFrom, readTextFile } from './files';
import { limitOf, planned, SEARCH_LINE, SEARCH_OPTIONS, workersOf } from './search';
import { DONE, NO_PLAN } from './terminal';

export const jobshop: Command = {
  name: 'jobshop',
  line: `FILE [--operators P] ${SEARCH_LINE} [--json]`,
  summary:
    'Plans a job shop of the public text formats for the earliest finish; with P operators, one of whom every operation needs throughout. W workers search side by side, usually one for each core; after N steps of each the plan is the same each time.',
  words: ['a job-shop text file'],
  options: {
    operators: { type: 'string' },
    ...SEARCH_OPTIONS,
    json: { type: 'boolean' },
  },
  async run(given, terminal) {
    const limit = limitOf(given, 10);
    const workers = workersOf(given);
    const file = given.word(0);
    const jobShop = readFrom(file, readJobShop(await readTextFile(file), basename(file, extname(file))));
    const shop = jobShopAsShop(jobShop, given.whole('operators', 0, 0, MOST_OPERATORS));
    const at = shop.planFrom ?? localAt({ zone: shop.zone, origin: 0 }, 0);
    const plan = await planned(terminal, workers, { shop, at, ...limit });
    if (plan === null) return NO_PLAN;
    const [breach] = referee(shop, plan).breaches;
    if (breach !== undefined || plan.left.length > 0) {
      terminal.remark(breach?.say ?? `No complete plan was found: ${plan.left[0]?.why ?? ''}`);
      return NO_PLAN;
    }
    const result = resultOf(jobShop, plan);
    terminal.print(given.flag('json') ? JSON.stringify(result) : summaryOf(jobShop, result));
    return DONE;
  },
};

const MOST_OPERATORS = 1000;

interface JobShopResult {
  readonly name: string;
  readonly makespan: number;
  /** No plan ends sooner. */
  readonly lower: number;
  readonly seconds: number;
  /** Jobs, operations and machines count from 0; times are from the start. */
  readonly operations: readonly { job: number; index: number; machine: number; start: number; end: number }[];
}

/** Jobs `J1`, operations `1`, machines `M1`, as the shop made of a job shop names them, back to counts from 0. */
function resultOf({ name }: JobShop, plan: Plan): JobShopResult {
  const operations = plan.runs.map(({ run, machine, start, end }) => {
    const [job = '', index = ''] = run.split('/');
    return {
      job: Number(job.slice(1)) - 1,
      index: Number(index) - 1,
      machine: Number(machine.slice(1)) - 1,
      start: start - plan.now,
      end: end - plan.now,
    };
  });
  operations.sort((a, b) => a.job - b.job || a.index - b.index);
  return {
    name,
    makespan: operations.reduce((last, { end }) => Math.max(last, end), 0),
    // A bound in hours; the hair's breadth is for what is lost in the division.
    lower: Math.ceil((plan.bound?.finish ?? 0) * 60 - 1e-6),
    seconds: plan.search.seconds,
    operations,
  };
}

function summaryOf({ jobs, machines }: JobShop, { name, makespan, lower, seconds }: JobShopResult): string {
  const size = `${jobs.length} jobs on ${machines} machines`;
  const proof = makespan === lower ? 'no plan ends sooner' : `no plan ends before ${lower}`;
  return `${name}: ${size}, done at ${makespan} (${proof}), found in ${seconds.toFixed(1)} s.`;
}
