import { execFileSync } from 'node:child_process';
import { appendFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { fileURLToPath } from 'node:url';
import type { Request } from './arguments';
import type { SetResult } from './report';
import { figure } from './table';

const FILE = fileURLToPath(new URL('./history.md', import.meta.url));

/** Where and on what a run was made. */
export interface Setting {
  /** `YYYY-MM-DD`. */
  readonly date: string;
  /** Short hash, with `+` where files differ from it. */
  readonly commit: string;
  readonly machine: string;
}

export function settingOf(now: Date): Setting {
  const processors = cpus();
  return {
    date: now.toISOString().slice(0, 10),
    commit: commitOf(),
    machine: `${processors.length} x ${processors[0]?.model.trim().replaceAll('|', '/') ?? 'unknown processor'}`,
  };
}

/** The rows of the history that a run adds, one a set. */
export function historyRows(
  setting: Setting,
  { command, seconds, workers, seed }: Request,
  sets: readonly SetResult[],
): string {
  const { date, commit, machine } = setting;
  return sets
    .map(({ set, instances, distance, reached }) => {
      const measured = [set, instances, seconds, workers, seed, figure(distance, 3), reached];
      return `| ${[date, commit, machine, command, ...measured].join(' | ')} |\n`;
    })
    .join('');
}

export function record(rows: string): void {
  appendFileSync(FILE, rows);
}

function commitOf(): string {
  const git = (...args: string[]) => execFileSync('git', args, { encoding: 'utf8', stdio: 'pipe' }).trim();
  try {
    return `${git('rev-parse', '--short', 'HEAD')}${git('status', '--porcelain') === '' ? '' : '+'}`;
  } catch {
    return 'unknown';
  }
}
