import type { ReactNode } from 'react';
import type { RowsBy } from './model';
import type { PlanIndex } from './plan-index';
import styles from './timeline.module.css';

interface LegendProps {
  readonly rows: RowsBy;
  readonly index: PlanIndex;
  /** Whether another plan is drawn beneath this one. */
  readonly compares: boolean;
}

/** The signs of the timeline, as short as it goes; machine kinds are named beside their rows. */
export function Legend({ rows, index, compares }: LegendProps) {
  const isLocked = index.view.shop.floor.some(({ state }) => state === 'locked');
  return (
    <ul className={styles.legend} aria-label="Signs">
      <Sign label="load">
        <rect x="3" y="3" width="8" height="8" fill="var(--ink)" />
      </Sign>
      <Sign label="unload">
        <rect x="3.75" y="3.75" width="7" height="7" fill="none" stroke="var(--ink)" strokeWidth="1.5" />
      </Sign>
      <Sign label="first-piece check">
        <path d="M7 2l5 5-5 5-5-5z" fill="var(--ink)" />
      </Sign>
      <Sign label="tools">
        <path d="M2.75 1.75h8.5v10.5h-8.5zM3 7h8" fill="none" stroke="var(--ink)" strokeWidth="1.5" />
      </Sign>
      <Sign label="may end">
        <path d="M1.5 4v6M12.5 4v6M1.5 7h11" fill="none" stroke="var(--ink)" />
      </Sign>
      <Sign label="held for it">
        <rect width="14" height="14" fill="var(--bar-mill)" />
        <path d="M-1 3l12 12M3-1l12 12M8-2l8 8" stroke="var(--bar-ink)" strokeWidth="2" opacity="0.55" />
      </Sign>
      <Sign label="late">
        <rect y="3" width="14" height="11" fill="var(--bar-mill)" />
        <path d="M0 2h6M9 2h5" stroke="var(--bad)" strokeWidth="4" />
      </Sign>
      {isLocked && (
        <Sign label="locked">
          <path d="M2 7h10v6H2z" fill="var(--ink)" />
          <path d="M4.5 7V4a2.5 2.5 0 015 0v3" fill="none" stroke="var(--ink)" strokeWidth="1.5" />
        </Sign>
      )}
      {index.clashes.size > 0 && (
        <Sign label="lock in conflict">
          <path d="M2 7h10v6H2z" fill="var(--bad)" />
          <path d="M4.5 7V4a2.5 2.5 0 014.6-1.4" fill="none" stroke="var(--bad)" strokeWidth="1.5" />
        </Sign>
      )}
      {rows === 'machines' && <StandingSigns />}
      {rows === 'pallets' && (
        <Sign label="on the pallet">
          <rect
            x="0.5"
            y="2.5"
            width="13"
            height="9"
            fill="var(--bar-mill)"
            fillOpacity="0.35"
            stroke="var(--line-strong)"
          />
        </Sign>
      )}
      {rows === 'jobs' && (
        <Sign label="due">
          <path d="M3 1v13M3 2l8 3.5L3 9" fill="none" stroke="var(--ink)" strokeWidth="1.5" />
        </Sign>
      )}
      {compares && rows === 'machines' && (
        <Sign label="in the other plan">
          <rect
            x="0.75"
            y="2.75"
            width="12.5"
            height="8.5"
            fill="none"
            stroke="var(--ink-soft)"
            strokeDasharray="3 2"
          />
        </Sign>
      )}
    </ul>
  );
}

/** Why a machine stands, and breaks of the people beneath. */
function StandingSigns() {
  return (
    <>
      <Sign label="waiting for a hand">
        <path d="M-2 8L8-2M-2 16L16-2M6 16L16 6" stroke="var(--line-strong)" strokeWidth="1.25" />
      </Sign>
      <Sign label="dry">
        <path d="M1 3h2M7 3h2M4 7h2M10 7h2M1 11h2M7 11h2" stroke="var(--line-strong)" strokeWidth="2" />
      </Sign>
      <Sign label="planned off">
        <path d="M-2 8L8-2M-2 16L16-2M6 16L16 6M-2 6L8 16M-2-2L16 16M6-2L16 8" stroke="var(--line-strong)" />
      </Sign>
      <Sign label="break">
        <path d="M2 0v14M6 0v14M10 0v14" stroke="var(--line-strong)" />
      </Sign>
    </>
  );
}

function Sign({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    <li>
      <svg width="14" height="14" viewBox="0 0 14 14" aria-hidden="true" focusable="false">
        {children}
      </svg>
      {label}
    </li>
  );
}
