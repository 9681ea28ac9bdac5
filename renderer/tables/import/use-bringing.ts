import { type ClipboardEvent, type DragEvent, type RefObject, useEffect, useState } from 'react';
import { isBlock, textOf } from './cells-text';
import type { Brought } from './use-import';

/** Where the bringing of rows to a table stands. */
export type Stage =
  | { readonly at: 'closed' }
  /** Rows may be pasted, dropped or chosen; `say`: why the last ones were not taken. */
  | { readonly at: 'waiting'; readonly say: string | null }
  | { readonly at: 'brought'; readonly brought: Brought };

interface Bringing {
  readonly stage: Stage;
  /** A file hovers over the table. */
  readonly hovered: boolean;
  readonly wait: () => void;
  readonly close: () => void;
  readonly takeText: (text: string) => void;
  readonly takeFile: (file: File) => Promise<void>;
  /** For the element around the table: pasted blocks and dropped files are its own. */
  readonly handlers: {
    readonly onPaste: (event: ClipboardEvent) => void;
    readonly onDragOver: (event: DragEvent) => void;
    readonly onDragLeave: (event: DragEvent) => void;
    readonly onDrop: (event: DragEvent) => void;
  };
}

/** Marks the element around each table that takes rows. */
export const TAKES_ROWS = 'data-takes-rows';

/** Rows brought to a table by paste, drop or choice of a file. */
export function useBringing(frame: RefObject<HTMLElement | null>): Bringing {
  const [stage, setStage] = useState<Stage>({ at: 'closed' });
  const [hovered, setHovered] = useState(false);
  const takeText = (text: string): void =>
    setStage(
      text.trim() === ''
        ? { at: 'waiting', say: 'There is nothing in what was pasted. Copy the rows first.' }
        : { at: 'brought', brought: { file: null, text } },
    );

  useEffect(() => {
    const hear = (event: globalThis.ClipboardEvent): void => {
      const text = event.clipboardData?.getData('text/plain') ?? '';
      if (event.defaultPrevented || !isBlock(text) || !isElsewhere(event.target)) return;
      // A screen may show several tables; the first is what it is about.
      if (document.querySelector(`[${TAKES_ROWS}]`) !== frame.current) return;
      event.preventDefault();
      setStage({ at: 'brought', brought: { file: null, text } });
    };
    document.addEventListener('paste', hear);
    return () => document.removeEventListener('paste', hear);
  }, [frame]);

  async function takeFile(file: File): Promise<void> {
    const text = textOf(file.name, new Uint8Array(await file.arrayBuffer()));
    setStage(
      text.ok ? { at: 'brought', brought: { file: file.name, text: text.value } } : { at: 'waiting', say: text.say },
    );
  }

  const bringsFiles = (event: DragEvent): boolean => event.dataTransfer.types.includes('Files');
  return {
    stage,
    hovered,
    wait: () => setStage({ at: 'waiting', say: null }),
    close: () => setStage({ at: 'closed' }),
    takeText,
    takeFile,
    handlers: {
      onPaste: (event) => {
        const text = event.clipboardData.getData('text/plain');
        if (event.defaultPrevented || !isBlock(text)) return;
        event.preventDefault();
        takeText(text);
      },
      onDragOver: (event) => {
        if (!bringsFiles(event)) return;
        event.preventDefault();
        setHovered(true);
      },
      onDragLeave: (event) => {
        if (!event.currentTarget.contains(event.relatedTarget as Node | null)) setHovered(false);
      },
      onDrop: (event) => {
        setHovered(false);
        const file = event.dataTransfer.files[0];
        if (file === undefined) return;
        event.preventDefault();
        void takeFile(file);
      },
    },
  };
}

/** True where nothing else has a use for pasted rows: no table and no field is there. */
function isElsewhere(target: EventTarget | null): boolean {
  return !(target instanceof Element) || target.closest(`[${TAKES_ROWS}], input, textarea, select`) === null;
}
