import { expect, it } from 'vitest';
import { toolLedger } from '../../../core/night';
import { NOW, toolShop } from '../../core/night/tool-shop';

// Groover, Fundamentals of Modern Manufacturing, example 23.4: whole pieces an edge cuts, n = floor(T / Tm), for lives T
// of 14.76 and 59.54 minutes and cuts Tm of 12.57 and 14.96 minutes. Here minutes are whole, so both are given in
// hundredths of a minute; only their ratio counts.
it.each([
  [1476, 1257, 1],
  [5954, 1496, 3],
])(
  'a finish tool of life %i covers as many whole cuts of %i as the textbook has pieces for one edge: %i',
  (life, cut, pieces) => {
    const { shop, plan } = toolShop({
      tools: [{ id: 'EDGE', life, finish: true }],
      magazines: { M1: { EDGE: [life] } },
      cuts: Array.from({ length: pieces + 1 }, (_, i) => ({ start: NOW + cut * i, cut, uses: { EDGE: cut } })),
      always: true,
    });
    const [first] = toolLedger(shop, plan).kinds[0]!.shortages;
    expect(first?.run).toBe(`${'ABCD'[pieces]}/10/1`);
  },
);
