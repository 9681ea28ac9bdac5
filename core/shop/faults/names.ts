import type { Fault } from '../fault';
import type { Path } from '../place';
import { type TableName, tableSchemas } from '../schema';
import { type Frame, fault, listed } from './frame';

/** Names given twice, and names that name nothing. */
export function nameFaults(frame: Frame): Fault[] {
  return [...duplicates(frame), ...unknownNames(frame), ...unknownSpots(frame)];
}

/** Indices of entries whose key an earlier entry already has. */
export function repeated(keys: readonly string[]): number[] {
  return keys.flatMap((key, index) => (keys.indexOf(key) < index ? [index] : []));
}

function duplicates(frame: Frame): Fault[] {
  const { shop } = frame;
  const twice = (code: string, keys: readonly string[], at: Path, say: string): Fault[] =>
    repeated(keys).map((index) => fault(frame, 'error', code, [...at, index], say));
  return [
    ...(Object.keys(tableSchemas) as TableName[]).flatMap((table) => {
      const ids = (shop[table] as readonly { id: string }[]).map((row) => row.id);
      return twice('duplicate-id', ids, [table], 'this id is given twice; rename or remove one of them.');
    }),
    ...shop.jobs.flatMap((job, j) => {
      const ids = job.route.map((operation) => operation.id);
      const say = 'the route has this operation twice; give one of them another id.';
      return twice('duplicate-operation', ids, ['jobs', j, 'route'], say);
    }),
    ...shop.jobs.flatMap((job, j) =>
      job.route.flatMap((operation, o) => {
        const ids = operation.machines.map((m) => m.machine);
        const say = 'the operation names this machine twice; keep the cycle that is right.';
        return twice('duplicate-machine', ids, ['jobs', j, 'route', o, 'machines'], say);
      }),
    ),
    ...twice(
      'duplicate-walk',
      shop.walking.between.map((walk) => [walk.from, walk.to].sort().join('/')),
      ['walking', 'between'],
      'the walk between these two spots is given twice; remove one.',
    ),
  ];
}

function unknownNames(frame: Frame): Fault[] {
  const { shop } = frame;
  const found: Fault[] = [];
  const look = (kind: string, known: ReadonlySet<string>, name: string, at: Path, remedy: string): void => {
    if (known.has(name)) return;
    const say = `there is no ${kind} ${name}; ${remedy}.`;
    found.push(fault(frame, 'error', `unknown-${kind}`, at, say));
  };
  const ids = (rows: readonly { id: string }[]): ReadonlySet<string> => new Set(rows.map((row) => row.id));
  const [machines, cells, tools, pallets] = [ids(shop.machines), ids(shop.cells), ids(shop.tools), ids(shop.pallets)];

  for (const [m, machine] of shop.machines.entries()) {
    const at = ['machines', m] as const;
    if (machine.cell !== null) look('cell', cells, machine.cell, [...at, 'cell'], 'add it, or clear the field');
    for (const [t, { tool }] of machine.magazine.entries())
      look('tool', tools, tool, [...at, 'magazine', t, 'tool'], 'add it, or take it out of the magazine');
  }
  for (const [p, pallet] of shop.pallets.entries())
    for (const [m, machine] of pallet.machines.entries())
      look('machine', machines, machine, ['pallets', p, 'machines', m], 'add it, or take it off the list');
  for (const [j, job] of shop.jobs.entries())
    for (const [o, operation] of job.route.entries()) {
      const at = ['jobs', j, 'route', o] as const;
      for (const [m, { machine }] of operation.machines.entries())
        look(
          'machine',
          machines,
          machine,
          [...at, 'machines', m, 'machine'],
          'add it, or take it out of the operation',
        );
      for (const [t, { tool }] of operation.tools.entries())
        look('tool', tools, tool, [...at, 'tools', t, 'tool'], 'add it, or take it out of the operation');
      for (const [t, tool] of (operation.proof?.tools ?? []).entries())
        look('tool', tools, tool, [...at, 'proof', 'tools', t], 'add it, or take it out of the proof');
      found.push(...unknownFixture(frame, operation.fixture, [...at, 'fixture']));
    }
  for (const [c, cause] of shop.night.shared.entries())
    for (const [m, machine] of cause.machines.entries())
      look('machine', machines, machine, ['night', 'shared', c, 'machines', m], 'add it, or take it out of the cause');
  const runs = new Set(frame.runs.keys());
  for (const [f, entry] of shop.floor.entries()) {
    const at = ['floor', f] as const;
    if (runs.size > 0 || shop.jobs.length === 0) look('run', runs, entry.run, [...at, 'run'], 'remove the entry');
    if (entry.machine !== null) look('machine', machines, entry.machine, [...at, 'machine'], 'name the right one');
    if (entry.pallet !== null) look('pallet', pallets, entry.pallet, [...at, 'pallet'], 'name the right one');
    if (entry.after !== null && runs.size > 0)
      look('run', runs, entry.after, [...at, 'after'], 'name the right one, or take the order off');
  }
  return found;
}

function unknownFixture(frame: Frame, fixture: string | null, at: Path): Fault[] {
  const kinds = [...new Set(frame.shop.pallets.map((pallet) => pallet.fixture))];
  if (fixture === null || kinds.includes(fixture)) return [];
  const there = kinds.length === 0 ? 'the shop has no pallets at all' : `there are pallets for ${listed(kinds)}`;
  const say = `no pallet carries fixture ${fixture} (${there}); add a pallet with it, or name another fixture.`;
  return [fault(frame, 'error', 'unknown-fixture', at, say)];
}

function unknownSpots(frame: Frame): Fault[] {
  const { shop } = frame;
  const spots = new Set([...shop.machines, ...shop.cells].map((place) => place.spot || place.id));
  return shop.walking.between.flatMap((walk, w) =>
    (['from', 'to'] as const)
      .filter((end) => !spots.has(walk[end]))
      .map((end) => {
        const say = `no machine or cell stands at ${walk[end] || 'an empty spot'}, so this walk is never used; name a spot in use, or remove the line.`;
        return fault(frame, 'warning', 'unknown-spot', ['walking', 'between', w, end], say);
      }),
  );
}
