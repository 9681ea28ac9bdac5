import type { ReactNode } from 'react';
import { Button } from '../look';
import { useShopState, useShopStore } from '../tables';
import css from './app.module.css';

/** Undo and redo, each saying what it would do. */
export function WayBackButtons(): ReactNode {
  const store = useShopStore();
  const wayBack = useShopState((state) => state.view?.wayBack);
  const undo = wayBack?.undo ?? null;
  const redo = wayBack?.redo ?? null;
  return (
    <div className={css.wayBack}>
      <Button
        rank="quiet"
        disabled={undo === null}
        title={undo === null ? 'Nothing to undo' : `Undo: ${undo} (Ctrl+Z)`}
        aria-keyshortcuts="Control+Z Meta+Z"
        onClick={() => void store.goBack('undo')}
      >
        Undo
      </Button>
      <Button
        rank="quiet"
        disabled={redo === null}
        title={redo === null ? 'Nothing to do again' : `Redo: ${redo} (Ctrl+Y)`}
        aria-keyshortcuts="Control+Y Control+Shift+Z Meta+Shift+Z"
        onClick={() => void store.goBack('redo')}
      >
        Redo
      </Button>
    </div>
  );
}
