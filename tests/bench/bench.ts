import { existsSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { type Request, readRequest } from './arguments';
import { benchCompare } from './compare';
import { historyRows, record, settingOf } from './history';
import { benchNights } from './nights';
import { benchPublished } from './published';
import { BadRequest } from './refusal';
import type { Report } from './report';
import { endWorkers } from './run';
import { benchSimulate } from './simulate';

/** Exit codes: all well; an illegal or impossible plan; a request that cannot be followed. */
const [WELL, FAILED, BAD] = [0, 1, 2];

async function main(args: readonly string[]): Promise<number> {
  const request = readRequest(args);
  // Said before hours are spent.
  if (request.json !== null && !existsSync(dirname(request.json))) {
    throw new BadRequest(`There is no folder for ${request.json}; make it, or name another file.`);
  }
  const setting = settingOf(new Date());
  const report = await reportOf(request);
  if (request.json !== null) {
    writeFileSync(request.json, `${JSON.stringify({ ...setting, request, ...report }, null, 2)}\n`);
  }
  if (report.failures.length > 0) {
    console.error(`\nFailed:\n${report.failures.map((say) => `  ${say}`).join('\n')}`);
    return FAILED;
  }
  if (request.record) record(historyRows(setting, request, report.sets));
  return WELL;
}

function reportOf(request: Request): Promise<Report> {
  const { command } = request;
  if (command === 'compare') return benchCompare(request, console.log);
  if (command === 'simulate') return benchSimulate(request, console.log);
  return command === 'nights' ? benchNights(request, console.log) : benchPublished(command, request, console.log);
}

try {
  process.exitCode = await main(process.argv.slice(2));
} catch (error) {
  if (!(error instanceof BadRequest)) throw error;
  console.error(error.message);
  process.exitCode = BAD;
} finally {
  await endWorkers();
}
