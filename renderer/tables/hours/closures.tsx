import type { ReactNode } from 'react';
import type { Machine } from '../../../core/shop';
import { addDays } from '../../../core/time';
import { Button, Each } from '../../look';
import { MomentField, TextField, useListEdits } from '../fields';
import { type Path, usePlanMoment } from '../store';
import { Block } from './block';
import css from './hours.module.css';

type Closure = Machine['closures'][number];

/** Times at which a machine is planned off, and why. */
export function Closures({ path, closures }: { path: Path; closures: readonly Closure[] }): ReactNode {
  const near = usePlanMoment();
  const { add, takeOut } = useListEdits<Closure>(path, closures);
  const tomorrow = addDays(near.slice(0, 10), 1);
  return (
    <Block title="Planned off">
      {closures.length === 0 && <p className={css.none}>Never: no care, repair or holiday is planned.</p>}
      <Each
        of={closures}
        draw={(closure, at) => (
          <div className={css.line}>
            <MomentField path={[...path, at, 'from']} label="Off from" size={16} value={closure.from} />
            <span>to</span>
            <MomentField path={[...path, at, 'to']} label="Off to" size={16} value={closure.to} />
            <div className={css.why}>
              <TextField path={[...path, at, 'why']} label="Why it is off" value={closure.why} placeholder="why" />
            </div>
            <Button rank="quiet" aria-label="Delete time off" onClick={() => takeOut(at, 'Deleted time off.')}>
              Delete
            </Button>
          </div>
        )}
      />
      <Button
        rank="quiet"
        onClick={() => add({ from: `${tomorrow}T08:00`, to: `${tomorrow}T12:00`, why: 'Machine care' })}
      >
        Add time off
      </Button>
    </Block>
  );
}
