import { type ReactNode, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { Each } from '../look';
import { useNow } from '../plan';
import { indexPlan, type Selection, Timeline } from '../timeline';
import { ChangeLists } from './change-lists';
import shared from './compare.module.css';
import { type Compared, type CompareStore, choiceOf } from './compare-store';
import css from './comparison.module.css';
import { ghostsOf } from './ghosts';
import { SideCard } from './side-card';
import { figureRows, nightsText, verdictOf } from './verdict';
import { signed, titleOf } from './words';

interface ComparisonProps {
  readonly store: CompareStore;
  readonly compared: Compared;
  /** The present moment, local time. */
  readonly present: string;
  readonly onOpen: (copy: string) => void;
  readonly onPlan: (copies: readonly string[]) => void;
}

/** Which of the two to work by, and why. */
export function Comparison({ store, compared, present, onOpen, onPlan }: ComparisonProps): ReactNode {
  const { comparison, say, pair, before, after } = compared;
  const choice = choiceOf(useStore(store));
  const names = { before: titleOf(choice, pair.before), after: titleOf(choice, pair.after) };
  const verdict = verdictOf(comparison, names);
  const nights = nightsText(comparison);
  const old = (['before', 'after'] as const).filter((side) => pair[side].copy !== null && compared[side].outdated);
  const card = { store, onOpen, onPlan };

  function headline(): string {
    if (old.length > 0) return `${old.map((side) => names[side]).join(', ')}: to be planned again first`;
    const isSame = pair.before.copy === pair.after.copy && before.id === after.id;
    return isSame ? 'The same plan on both sides: choose another' : verdict.say;
  }

  return (
    <section aria-label="Comparison">
      <h1>{headline()}</h1>
      {nights !== null && <p>{nights}</p>}
      <div className={css.cards}>
        <SideCard {...card} side="before" view={before} isBetter={old.length === 0 && verdict.winner === 'before'} />
        <SideCard {...card} side="after" view={after} isBetter={old.length === 0 && verdict.winner === 'after'} />
      </div>
      <div className={css.facts}>
        <Figures compared={compared} />
        <section aria-label="What changes">
          <h2>What changes</h2>
          <ul>
            <Each of={say} draw={(sentence) => <li>{sentence}</li>} />
          </ul>
          <ChangeLists comparison={comparison} />
        </section>
      </div>
      <AfterOverTime compared={compared} present={present} name={names.after} />
    </section>
  );
}

function Figures({ compared: { comparison } }: { readonly compared: Compared }): ReactNode {
  return (
    <table className={css.figures}>
      <thead>
        <tr>
          <th scope="col">Figure</th>
          <th scope="col">Before</th>
          <th scope="col">After</th>
          <th scope="col">Difference</th>
          <th scope="col">
            <span className={shared.unseen}>After is</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {figureRows(comparison).map(({ key, label, unit, decimals, before, after, difference, judgement }) => {
          const unitText = unit === '' ? '' : ` ${unit}`;
          return (
            <tr key={key}>
              <th scope="row">{label}</th>
              <td>{`${before.toFixed(decimals)}${unitText}`}</td>
              <td>{`${after.toFixed(decimals)}${unitText}`}</td>
              <td>{`${signed(difference, decimals)}${unitText}`}</td>
              <td data-judgement={judgement}>{judgement}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

interface AfterProps {
  readonly compared: Compared;
  readonly present: string;
  readonly name: string;
}

/** The plan after over time, the runs of the plan before behind it. */
function AfterOverTime({ compared: { before, after }, present, name }: AfterProps): ReactNode {
  const index = useMemo(() => indexPlan(after), [after]);
  const ghosts = useMemo(() => ghostsOf(before, after), [before, after]);
  const nowMin = useNow(after, present);
  const [selection, setSelection] = useState<Selection | null>(null);
  const shown = selection?.kind === 'run' && !index.runs.has(selection.run) ? null : selection;
  return (
    <section aria-label="The plan after over time">
      <h2>{name}, over time</h2>
      <div className={css.timeline}>
        <Timeline index={index} nowMin={nowMin} selection={shown} onSelect={setSelection} ghosts={ghosts} />
      </div>
    </section>
  );
}
