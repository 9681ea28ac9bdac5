import type { ReactNode } from 'react';
import type { Operation } from '../../../core/shop';
import { Button } from '../../look';
import { LengthField } from '../fields';
import { keyOf, type Path, putting, usePlace, useShopStore } from '../store';
import css from './jobs.module.css';

/** The first-piece check of an operation: after how long the machine is held, and how long measuring takes. */
export function FirstPiece({ path, value }: { path: Path; value: Operation['firstPiece'] }): ReactNode {
  const store = useShopStore();
  const place = usePlace();
  const put = (next: Operation['firstPiece']): void => void store.edit(place, putting(path, next));
  if (value === null) {
    return (
      <Button
        rank="quiet"
        data-at={keyOf(place, path)}
        aria-label="none: add a first-piece check"
        className={css.noCheck ?? ''}
        onClick={() => put({ after: 0, minutes: 15 })}
      >
        none
      </Button>
    );
  }
  return (
    <div className={css.check}>
      <LengthField path={[...path, 'after']} label="Check after" value={value.after} size={4} />
      <span aria-hidden="true">for</span>
      <LengthField path={[...path, 'minutes']} label="Check takes" value={value.minutes} size={4} some />
      <Button rank="quiet" aria-label="Take the first-piece check out" onClick={() => put(null)}>
        ×
      </Button>
    </div>
  );
}
