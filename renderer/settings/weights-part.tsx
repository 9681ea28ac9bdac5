import type { ReactNode } from 'react';
import type { Weights } from '../../core/shop';
import { AmountField, Section, useShop } from '../tables';
import css from './settings.module.css';

/** What one unit of each weight buys, in the order in which they usually matter. */
const MEANING: readonly { readonly of: keyof Weights; readonly name: string; readonly say: string }[] = [
  {
    of: 'lateness',
    name: 'Lateness',
    say: 'cost of each hour a job of weight 1 is late; a job of weight 2 counts twice.',
  },
  { of: 'tonight', name: 'Tonight', say: 'gain for each machine hour cut tonight while nobody is there.' },
  { of: 'laterNights', name: 'Later nights', say: 'gain for each machine hour cut unattended after tonight.' },
  {
    of: 'morning',
    name: 'Morning',
    say: 'gain for each machine that still cuts when the first person comes in.',
  },
  { of: 'rounds', name: 'Rounds', say: 'cost of each walk of a person to the machines.' },
  { of: 'extraHours', name: 'Extra hours', say: 'cost of each hand hour in hours marked as extra.' },
  { of: 'moved', name: 'Moved runs', say: 'cost of each run that moves away from the plan already released.' },
  {
    of: 'flow',
    name: 'Flow',
    say: 'cost of each hour until a run is cut, over all runs; keeps machines from standing.',
  },
  {
    of: 'finish',
    name: 'Finish',
    say: 'cost of each hour until the last run is off.',
  },
];

export function WeightsPart(): ReactNode {
  const { weights } = useShop();
  return (
    <Section
      title="What makes a plan better"
      lead="Weights against each other: at 2 and 0.5, one hour of the first is worth four of the second. 0 means it does not count."
    >
      <table className={css.weights}>
        <tbody>
          {MEANING.map(({ of, name, say }) => (
            <tr key={of}>
              <th scope="row">{name}</th>
              <td>
                <AmountField path={['weights', of]} label={`Weight of ${name}`} value={weights[of]} />
              </td>
              <td>{say}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Section>
  );
}
