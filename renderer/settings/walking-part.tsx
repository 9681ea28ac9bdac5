import type { ReactNode } from 'react';
import type { Shop } from '../../core/shop';
import { Button, Each } from '../look';
import { MinutesField, Section, TextField, useListEdits, useShop } from '../tables';
import css from './settings.module.css';

type Walk = Shop['walking']['between'][number];

/** Minutes to walk between two spots. */
export function WalkingPart(): ReactNode {
  const { walking, machines, cells } = useShop();
  const { add, takeOut } = useListEdits<Walk>(['walking', 'between'], walking.between);
  const spots = [...new Set([...machines, ...cells].map((place) => place.spot))].filter((spot) => spot !== '').sort();
  return (
    <Section
      title="Walking"
      lead="Machines and cells name the spot where a person stands; between two spots one walks."
    >
      <div className={css.line}>
        Usually <MinutesField path={['walking', 'usual']} label="Usual walk" value={walking.usual} size={3} /> min
        between two spots
      </div>
      <Each
        of={walking.between}
        draw={(walk, at) => (
          <div className={css.line}>
            <div className={css.spot}>
              <TextField
                path={['walking', 'between', at, 'from']}
                label="From"
                value={walk.from}
                suggest={spots}
                placeholder="spot"
              />
            </div>
            to
            <div className={css.spot}>
              <TextField
                path={['walking', 'between', at, 'to']}
                label="To"
                value={walk.to}
                suggest={spots}
                placeholder="spot"
              />
            </div>
            <MinutesField path={['walking', 'between', at, 'minutes']} label="Minutes" value={walk.minutes} size={3} />{' '}
            min
            <Button
              rank="quiet"
              aria-label={`Delete the walk from ${walk.from} to ${walk.to}`}
              onClick={() => takeOut(at, `Deleted the walk from ${walk.from} to ${walk.to}.`)}
            >
              Delete
            </Button>
          </div>
        )}
      />
      <Button
        rank="quiet"
        onClick={() => add({ from: spots[0] ?? '', to: spots[1] ?? '', minutes: walking.usual + 1 })}
      >
        Add walk
      </Button>
    </Section>
  );
}
