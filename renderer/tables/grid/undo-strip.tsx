import { type ReactNode, useEffect, useState } from 'react';
import { Button } from '../../look';
import { useShopState, useShopStore } from '../store';
import css from './undo-strip.module.css';

/** How long it stands, unless the pointer or the focus rests on it. */
const OFFER_MS = 12_000;

/** What was just done, deleted or undone, with the way back from it. */
export function UndoStrip(): ReactNode {
  const store = useShopStore();
  const strip = useShopState((state) => state.strip);
  const [held, setHeld] = useState(false);
  useEffect(() => {
    if (strip === null || held) return;
    const timer = setTimeout(store.closeStrip, OFFER_MS);
    return () => clearTimeout(timer);
  }, [strip, held, store]);
  return (
    <div className={css.place} role="status">
      {strip !== null && (
        <fieldset
          aria-label="Take back"
          className={css.strip}
          onPointerEnter={() => setHeld(true)}
          onPointerLeave={() => setHeld(false)}
          onFocus={() => setHeld(true)}
          onBlur={() => setHeld(false)}
        >
          <span>{strip.say}</span>
          <Button
            onClick={() => {
              setHeld(false);
              void store.goBack(strip.offer);
            }}
          >
            {strip.offer === 'undo' ? 'Undo' : 'Redo'}
          </Button>
          <Button
            rank="quiet"
            onClick={() => {
              setHeld(false);
              store.closeStrip();
            }}
          >
            Close
          </Button>
        </fieldset>
      )}
    </div>
  );
}
