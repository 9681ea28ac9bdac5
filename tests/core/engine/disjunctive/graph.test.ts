import { describe, expect, it } from 'vitest';
import type { MachineShop } from '../../../../core/engine/disjunctive';
import { Estimator } from '../../../../core/engine/disjunctive/estimate';
import { Graph } from '../../../../core/engine/disjunctive/graph';
import { numbers } from '../random-shop';
import { jobByJob, randomMachineShop } from './random-job-shop';

/** Everything a graph knows of its runs. */
function facts({ nobody, order, ...graph }: Graph) {
  const { option, machine, minutes, machineBefore, machineAfter, firstOn, end, way, makespan } = graph;
  return { option, machine, minutes, machineBefore, machineAfter, firstOn, end, way, makespan };
}

function loaded(shop: MachineShop): Graph {
  const graph = new Graph(shop);
  const { order, option } = jobByJob(shop);
  graph.load(order, option);
  return graph;
}

/** Walks a graph through random moves, each to any option and any place there; tells of each whether it was made. */
function wander(graph: Graph, seed: number, steps: number, told: (wasMade: boolean) => void): void {
  const { shop, nobody } = graph;
  const pick = numbers(seed);
  for (let i = 0; i < steps; i++) {
    const run = pick(nobody);
    const first = shop.optionFirst[run]!;
    const option = first + pick(shop.optionFirst[run + 1]! - first);
    const places = [nobody];
    const machine = shop.optionMachine[option]!;
    for (let r = graph.firstOn[machine]!; r !== nobody; r = graph.machineAfter[r]!) if (r !== run) places.push(r);
    told(graph.relocate(run, option, places[pick(places.length)]!));
  }
}

describe('the graph of a machine shop', () => {
  it('knows after every one of 12,000 random moves what timing everything anew would tell', () => {
    let made = 0;
    let refused = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const shop = randomMachineShop(seed);
      const graph = loaded(shop);
      const anew = new Graph(shop);
      wander(graph, seed, 200, (wasMade) => {
        if (wasMade) made++;
        else refused++;
        anew.load(graph.order, graph.option);
        expect(facts(graph), `shop ${seed}`).toEqual(facts(anew));
      });
    }
    expect(made).toBeGreaterThan(4_000);
    expect(refused).toBeGreaterThan(1_000);
  });

  it('lists every run behind all that lead to it', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const graph = loaded(randomMachineShop(seed));
      wander(graph, seed, 100, () => {
        for (let run = 0; run < graph.nobody; run++) {
          expect(graph.order[graph.place[run]!]).toBe(run);
          for (const before of [graph.routeBefore[run]!, graph.machineBefore[run]!])
            if (before !== graph.nobody) expect(graph.place[before]).toBeLessThan(graph.place[run]!);
        }
      });
    }
  });

  it('refuses no move whose test says that it closes no circle', () => {
    let tested = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const graph = loaded(randomMachineShop(seed));
      const estimator = new Estimator(graph);
      const { nobody, machineBefore } = graph;
      wander(graph, seed, 60, () => {
        for (let first = 0; first < nobody; first++)
          for (let second = graph.machineAfter[first]!; second !== nobody; second = graph.machineAfter[second]!) {
            const from = machineBefore[first]!;
            const option = graph.option[first]!;
            if (estimator.canGoBehind(first, second)) {
              tested++;
              expect(graph.relocate(first, option, second)).toBe(true);
              expect(graph.relocate(first, option, from)).toBe(true);
            }
            if (estimator.canGoAhead(second, first)) {
              tested++;
              const back = machineBefore[second]!;
              expect(graph.relocate(second, graph.option[second]!, from)).toBe(true);
              expect(graph.relocate(second, graph.option[second]!, back)).toBe(true);
            }
          }
      });
    }
    expect(tested).toBeGreaterThan(10_000);
  });

  it('never ends sooner than estimated after two neighbours have swapped', () => {
    let met = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const graph = loaded(randomMachineShop(seed));
      const estimator = new Estimator(graph);
      wander(graph, seed, 100, () => {
        for (let first = 0; first < graph.nobody; first++) {
          const second = graph.machineAfter[first]!;
          if (second === graph.nobody || !estimator.canGoBehind(first, second)) continue;
          const estimate = estimator.behind(first, second);
          expect(estimator.ahead(second, first)).toBe(estimate);
          const from = graph.machineBefore[first]!;
          if (!graph.relocate(first, graph.option[first]!, second)) continue;
          expect(graph.makespan).toBeGreaterThanOrEqual(estimate);
          if (graph.makespan === estimate) met++;
          graph.relocate(first, graph.option[first]!, from);
        }
      });
    }
    expect(met).toBeGreaterThan(1_000);
  });
});
