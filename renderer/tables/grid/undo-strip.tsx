import { type ReactNode, useEffect, useState } from 'react';
import { Button } from '../../look';
import { useShopState, useShopStore } from '../store';
import css from './undo-strip.module.css';

/** How long a deletion can be taken back, unless the pointer or the focus rests on the strip. */
const OFFER_MS = 12_000;

export function UndoStrip(): ReactNode {
  const store = useShopStore();
  const undo = useShopState((state) => state.undo);
  const [held, setHeld] = useState(false);
  useEffect(() => {
    if (undo === null || held) return;
    const timer = setTimeout(store.forgetUndo, OFFER_MS);
    return () => clearTimeout(timer);
  }, [undo, held, store]);
  return (
    <div className={css.place} role="status">
      {undo !== null && (
        <fieldset
          aria-label="Take back"
          className={css.strip}
          onPointerEnter={() => setHeld(true)}
          onPointerLeave={() => setHeld(false)}
          onFocus={() => setHeld(true)}
          onBlur={() => setHeld(false)}
        >
          <span>{undo.say}</span>
          <Button
            onClick={() => {
              setHeld(false);
              void store.takeBack();
            }}
          >
            Undo
          </Button>
          <Button
            rank="quiet"
            onClick={() => {
              setHeld(false);
              store.forgetUndo();
            }}
          >
            Close
          </Button>
        </fieldset>
      )}
    </div>
  );
}
