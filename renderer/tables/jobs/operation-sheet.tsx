import type { ReactNode } from 'react';
import type { IfStops, Operation } from '../../../core/shop';
import { ChoiceField, EditField, TextField } from '../fields';
import { Block } from '../hours';
import { Line, Told } from '../panel';
import { parseDate, showDate } from '../parse';
import { keyOf, type Path, setIn, usePlace, usePlanMoment } from '../store';
import type { CareProps } from './care-props';
import css from './jobs.module.css';

const IF_STOPS: readonly { readonly value: IfStops; readonly say: string }[] = [
  { value: 'skip', say: 'skip it, go on with the next pallet' },
  { value: 'leave', say: 'leave it standing' },
  { value: 'call', say: 'call the person on duty' },
];

/** What the run sheet says to whoever stands before the machine. */
export function OperationSheet({ operation, at }: CareProps): ReactNode {
  const place = usePlace();
  const path: Path = ['route', at];
  return (
    <Block title="On the run sheet">
      <Line>
        Measure{' '}
        <TextField
          path={[...path, 'measure']}
          label="What to measure"
          value={operation.measure}
          placeholder="nothing by hand"
          size={34}
        />
      </Line>
      <Line>
        If it stops{' '}
        <span className={css.choice}>
          <ChoiceField path={[...path, 'ifStops']} label="If it stops" value={operation.ifStops} choices={IF_STOPS} />
        </span>
      </Line>
      <Correction correction={operation.correction} path={[...path, 'correction']} />
      {['measure', 'ifStops', 'correction'].map((field) => (
        <Told key={field} of={keyOf(place, [...path, field])} />
      ))}
    </Block>
  );
}

interface CorrectionProps {
  readonly correction: Operation['correction'];
  readonly path: Path;
}

/** Typing one dates it; taking its text away takes it off the sheet. */
function Correction({ correction, path }: CorrectionProps): ReactNode {
  const near = usePlanMoment();
  const today = near.slice(0, 10);
  const put = (record: unknown, text: string): unknown =>
    setIn(record, path, text === '' ? null : { why: '', ...correction, text, at: today });
  return (
    <>
      <Line>
        Last correction{' '}
        <TextField
          path={[...path, 'text']}
          label="Last correction"
          value={correction?.text ?? ''}
          placeholder="none"
          size={28}
          change={put}
        />
      </Line>
      {correction !== null && (
        <Line>
          because{' '}
          <TextField
            path={[...path, 'why']}
            label="Why it was corrected"
            value={correction.why}
            placeholder="why"
            size={22}
          />{' '}
          on{' '}
          <EditField
            path={[...path, 'at']}
            label="Date of the correction"
            size={10}
            value={correction.at}
            parse={parseDate(near)}
            show={(date) => showDate(date, near)}
          />
        </Line>
      )}
    </>
  );
}
