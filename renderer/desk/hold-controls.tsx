import type { Hold } from '../../core/contract';
import type { Shop } from '../../core/shop';
import { minuteOf } from '../../core/time';
import { type PlanIndex, whenText } from '../timeline';
import styles from './desk.module.css';
import { type DeskStore, holding, refusalOf } from './desk-store';
import { freeHold, holdAsPlanned, holdOf, isOnFloor } from './holds';
import { Refusal } from './refusal';
import { useDesk } from './use-desk';

type Part = Exclude<keyof Hold, 'run'>;

const PARTS: readonly Part[] = ['machine', 'start', 'pallet', 'after'];

interface HoldControlsProps {
  readonly desk: DeskStore;
  readonly index: PlanIndex;
  /** As it is now, which may be later than the plan's. */
  readonly shop: Shop;
  readonly run: string;
  readonly disabled: boolean;
}

/** What of a run a plan may no longer change: its machine, its time, its pallet, its place in the order. */
export function HoldControls({ desk, index, shop, run, disabled }: HoldControlsProps) {
  const refused = useDesk(desk, (state) => refusalOf(state, run));
  const planned = index.runs.get(run);
  if (planned === undefined) return null;
  if (isOnFloor(shop, run)) return <p className={styles.soft}>On the floor already: it stays where it is.</p>;
  const asPlanned = holdAsPlanned(index.view.plan, planned);
  const hold = holdOf(shop, run) ?? freeHold(run);
  const put = (part: Part, held: boolean): void => {
    void desk.getState().apply(holding({ ...hold, [part]: held ? asPlanned[part] : null }));
  };
  return (
    <fieldset className={styles.holds} disabled={disabled}>
      <legend>Hold</legend>
      {PARTS.filter((part) => asPlanned[part] !== null || hold[part] !== null).map((part) => (
        <label key={part}>
          <input type="checkbox" checked={hold[part] !== null} onChange={(event) => put(part, event.target.checked)} />
          {partWords(index, part, hold[part] ?? asPlanned[part] ?? '')}
        </label>
      ))}
      <Refusal say={refused} />
    </fieldset>
  );
}

function partWords(index: PlanIndex, part: Part, value: string): string {
  switch (part) {
    case 'machine':
      return `on ${value}`;
    case 'start':
      return `at ${whenText(index, minuteOf(index.clock, value))}`;
    case 'pallet':
      return `with pallet ${value}`;
    case 'after':
      return `after ${value}`;
  }
}

/** `on M2, at Wed 14:20`: what a hold names. */
export function holdWords(index: PlanIndex, hold: Hold): string {
  return PARTS.flatMap((part) => {
    const value = hold[part];
    return value === null ? [] : [partWords(index, part, value)];
  }).join(', ');
}
