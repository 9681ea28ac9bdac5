import type { Interval } from '../time';
import type { Visit } from './attendance';
import type { Context } from './context';
import type { Occupation } from './occupation';
import { crowds, groupBy } from './sweep';
import { type Finding, finding, isHeld } from './verdict';
import { at, list } from './words';

/** Rule 3: no more runs on a machine or cell than it has places, no more being loaded than it has stations. */
export function checkPlaces(ctx: Context, occupations: readonly Occupation[], visits: readonly Visit[]): Finding[] {
  const stays = occupations.map(({ run, machine, stay: { start, end } }) => ({ run, machine, start, end }));
  const hands = visits
    .filter(({ role }) => role === 'load' || role === 'unload')
    .map(({ start, end, runs, machine }) => {
      return { run: runs[0] ?? '', machine, start: Math.max(start, ctx.now), end };
    });
  return [
    ...checkRoom(ctx, stays, 'places', (at, most, runs) => {
      return `${at.holder} holds ${runs} from ${at.time}; it has ${most} ${most === 1 ? 'place' : 'places'}.`;
    }),
    ...checkRoom(ctx, hands, 'stations', (at, most, runs) => {
      return `At ${at.holder} ${runs} are loaded or unloaded at ${at.time}; it has ${most} ${most === 1 ? 'load station' : 'load stations'}.`;
    }),
  ];
}

interface Span extends Interval {
  readonly run: string;
  readonly machine: string;
}

type Say = (at: { holder: string; time: string }, most: number, runs: string) => string;

function checkRoom(ctx: Context, spans: readonly Span[], what: 'places' | 'stations', say: Say): Finding[] {
  const rooms = [...groupBy(spans, (span) => span.machine)].flatMap(([machine, group]) => {
    const room = roomAt(ctx, machine, what);
    return room === null ? [] : [{ room, group }];
  });
  // A cell and a machine may go by the same name.
  return [...groupBy(rooms, ({ room }) => `${room.isCell}/${room.holder}`).values()].flatMap((sharing) => {
    const { holder, most } = (sharing[0] as (typeof sharing)[number]).room;
    const all = sharing.flatMap(({ group }) => group);
    return crowds(all, most, (span) => !isHeld(ctx.floor.get(span.run))).map((crowd) => {
      const runs = crowd.spans.map((span) => span.run);
      const time = at(ctx.clock, crowd.at);
      return finding(3, what, runs, say({ holder, time }, most, list(runs)), 'held');
    });
  });
}

interface Room {
  readonly holder: string;
  readonly isCell: boolean;
  readonly most: number;
}

/** Where a run on the machine takes a place or a load station, or null if none is needed or there is no limit. */
function roomAt(ctx: Context, id: string, what: 'places' | 'stations'): Room | null {
  const machine = ctx.machines.get(id);
  if (machine === undefined || machine.kind === 'bench') return null;
  if (machine.cell !== null) {
    const cell = ctx.cells.get(machine.cell);
    return cell === undefined ? null : { holder: cell.id, isCell: true, most: cell[what] };
  }
  if (machine.places === 0) return null;
  const most = machine[what];
  return most === null ? null : { holder: machine.id, isCell: false, most };
}
