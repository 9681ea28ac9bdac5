import { type KeyboardEvent, type ReactNode, useId, useState } from 'react';
import type { Api } from '../../core/contract';
import type { Shop } from '../../core/shop';
import { localAt, type Minute } from '../../core/time';
import { type DeskStore, LockedList, lockOf, RushPanel } from '../desk';
import type { PlanIndex, Selection } from '../timeline';
import { LateList } from './late-list';
import { RoundsList } from './rounds-list';
import styles from './side-panel.module.css';
import { UnplacedList } from './unplaced-list';

interface SidePanelProps {
  readonly api: Api;
  readonly index: PlanIndex;
  readonly nowMin: Minute;
  readonly selection: Selection | null;
  readonly desk: DeskStore;
  /** As it is now, which may be later than the plan's. */
  readonly shop: Shop;
  /** A plan is being made. */
  readonly disabled: boolean;
  onSelect(selection: Selection): void;
}

interface Tab {
  readonly key: string;
  readonly label: string;
  readonly content: ReactNode;
}

/** The lists beside the timeline: rounds first, then what is late, what is held, and a job that comes in between. */
export function SidePanel(props: SidePanelProps) {
  const { index, nowMin, selection, onSelect } = props;
  const { report, plan } = index.view;
  const unplaced = plan.left.length + plan.conflicts.length;
  const [chosen, setChosen] = useState('rounds');
  const held = props.shop.floor.filter(({ run }) => lockOf(props.shop, run) !== null).length;
  const tabs: Tab[] = [
    { key: 'rounds', label: 'Rounds', content: <RoundsList {...{ index, nowMin, selection, onSelect }} /> },
    { key: 'late', label: `Late (${report.late.length})`, content: <LateList {...props} /> },
    { key: 'held', label: held === 0 ? 'Locked' : `Locked (${held})`, content: <LockedList {...props} /> },
    {
      key: 'rush',
      label: 'Rush job',
      content: <RushPanel {...props} near={localAt(plan.clock, plan.now)} onTaken={() => setChosen('rounds')} />,
    },
    ...(unplaced > 0
      ? [{ key: 'unplaced', label: `Not placed (${unplaced})`, content: <UnplacedList {...props} /> }]
      : []),
  ];
  return <Tabs tabs={tabs} label="Lists of this plan" chosen={chosen} setChosen={setChosen} />;
}

interface TabsProps {
  readonly tabs: readonly Tab[];
  readonly label: string;
  readonly chosen: string;
  setChosen(key: string): void;
}

function Tabs({ tabs, label, chosen, setChosen }: TabsProps) {
  const id = useId();
  // A tab may vanish with the next plan.
  const open = tabs.find((tab) => tab.key === chosen) ?? tabs[0];
  const keyDown = (event: KeyboardEvent<HTMLDivElement>): void => {
    const by = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    const at = tabs.findIndex((tab) => tab.key === open?.key);
    const next = by === undefined ? undefined : tabs[(at + by + tabs.length) % tabs.length];
    if (next === undefined) return;
    event.preventDefault();
    setChosen(next.key);
    document.getElementById(`${id}-${next.key}`)?.focus();
  };
  return (
    <aside className={styles.side}>
      <div role="tablist" aria-label={label} className={styles.tabs} onKeyDown={keyDown}>
        {tabs.map((tab) => (
          <button
            key={tab.key}
            id={`${id}-${tab.key}`}
            type="button"
            role="tab"
            aria-selected={tab.key === open?.key}
            aria-controls={`${id}-panel`}
            tabIndex={tab.key === open?.key ? 0 : -1}
            onClick={() => setChosen(tab.key)}
          >
            {tab.label}
          </button>
        ))}
      </div>
      <div id={`${id}-panel`} role="tabpanel" aria-labelledby={`${id}-${open?.key}`} className={styles.panel}>
        {open?.content}
      </div>
    </aside>
  );
}
