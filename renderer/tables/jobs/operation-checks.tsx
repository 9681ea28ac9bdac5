import type { ReactNode } from 'react';
import type { Check } from '../../../core/shop';
import { Button, Each } from '../../look';
import { ChanceField, MinutesField, TextField, useListEdits, WholeField } from '../fields';
import { Block } from '../hours';
import { Figures, Follows, Head, Told } from '../panel';
import { keyOf, type Path, usePlace, useShop } from '../store';
import type { CareProps } from './care-props';
import { plannedText } from './care-words';
import css from './jobs.module.css';

/** What the machine measures, how often it is out of limits, and what is then cut again. */
export function OperationChecks({ operation, at }: CareProps): ReactNode {
  const { night } = useShop();
  const path: Path = ['route', at, 'checks'];
  const { add, takeOut } = useListEdits<Check>(path, operation.checks);
  return (
    <Block title="Checks by the machine">
      {operation.checks.length === 0 ? (
        <p className={css.none}>None: nothing is measured in the machine and nothing cut again.</p>
      ) : (
        <Figures label={`Checks of operation ${operation.id}`} widths={[170, 62, 62, 72, 28]}>
          <thead>
            <tr>
              <Head say="Check" />
              <Head say="Out" unit="% of cuts" align="end" />
              <Head say="Repeat" unit="min" align="end" />
              <Head say="At most" unit="repeats" align="end" />
              <th aria-label="Delete" />
            </tr>
          </thead>
          <tbody>
            <Each
              of={operation.checks}
              draw={(check, index) => (
                <tr>
                  <td data-column="name">
                    <TextField path={[...path, index, 'name']} label="Check" value={check.name} placeholder="name" />
                  </td>
                  <td data-column="chance">
                    <ChanceField
                      path={[...path, index, 'chance']}
                      label="Chance out of limits, percent"
                      value={check.chance}
                    />
                  </td>
                  <td data-column="repeat">
                    <MinutesField path={[...path, index, 'repeat']} label="Minutes cut again" value={check.repeat} />
                  </td>
                  <td data-column="most">
                    <WholeField path={[...path, index, 'most']} label="Most repeats" value={check.most} least={1} />
                  </td>
                  <td>
                    <Button
                      rank="quiet"
                      aria-label={`Delete check ${check.name || index + 1}`}
                      onClick={() =>
                        takeOut(index, `Deleted check ${check.name || index + 1} of operation ${operation.id}.`)
                      }
                    >
                      ×
                    </Button>
                  </td>
                </tr>
              )}
            />
          </tbody>
        </Figures>
      )}
      <Button
        rank="quiet"
        className={css.add ?? ''}
        onClick={() => add({ name: '', chance: 0.05, repeat: SOME_REPEAT, most: 1 })}
      >
        Add check
      </Button>
      {operation.checks.length > 0 && <Follows>{plannedText(operation, night.repeatShare)}</Follows>}
      <Told of={keyOf(usePlace(), path)} />
    </Block>
  );
}

/** Of a check nobody has timed yet, minutes. */
const SOME_REPEAT = 5;
