import type { Request } from './arguments';
import type { Print, Report } from './report';
export async function benchCompare(_r: Request, _p: Print): Promise<Report> {
  return { rows: [], sets: [], failures: [] };
}
