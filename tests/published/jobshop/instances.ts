import { readFileSync } from 'node:fs';
import { jobShopAsShop, readJobShop } from '../../../core/exchange';
import type { Shop } from '../../../core/shop';

/**
 * Published bounds on the makespan: no schedule is shorter than `lower`, and one of `upper` is known. Classical
 * instances (Fisher & Thompson 1963; Lawrence 1984; Adams, Balas & Zawack 1988): both from refereed papers, named in
 * `lowerFrom` and `upperFrom`. Flexible ones (Kacem, Hammadi & Borne 2002; Brandimarte 1993): runs of exact solvers in
 * a public registry, not refereed; all but kacem-k4's were found again by another solver from these files.
 */
export interface PublishedBounds {
  readonly name: string;
  readonly lower: number;
  readonly upper: number;
  readonly lowerFrom: string;
  readonly upperFrom: string;
}

const at = (path: string) => readFileSync(new URL(path, import.meta.url), 'utf8');

export const BOUNDS = JSON.parse(at('./bounds.json')) as readonly PublishedBounds[];

/** Instances whose operations have a choice of machines stand beside, in a folder with a LICENCE of its own. */
const FLEXIBLE = /^(brandimarte|kacem)-/;

/** A copied instance (see LICENCE beside this file) as an ordinary shop without nights, with so many operators if any. */
export function shopOf(name: string, operators = 0): Shop {
  const folder = FLEXIBLE.test(name) ? '../flexible/instances' : './instances';
  const jobShop = readJobShop(at(`${folder}/${name}.txt`), name);
  if (!jobShop.ok) throw new Error(jobShop.faults[0]?.say);
  return jobShopAsShop(jobShop.value, operators);
}
