import { type Path, putting, usePlace, useShopStore } from '../store';

export interface ListEdits<Item> {
  readonly add: (item: Item) => void;
  /** `say` names what went, for the offer to take it back. */
  readonly takeOut: (at: number, say: string) => void;
  /** Swaps an item with the one after it. */
  readonly swap: (at: number) => void;
}

/** Edits of a list inside the record at hand. */
export function useListEdits<Item>(path: Path, list: readonly Item[]): ListEdits<Item> {
  const store = useShopStore();
  const place = usePlace();
  return {
    add: (item) => void store.edit(place, putting(path, [...list, item])),
    takeOut: (at, say) => {
      const without = list.filter((_, i) => i !== at);
      void store.edit(place, { ...putting(path, without), undo: say });
    },
    swap: (at) => {
      const [first, second] = [list[at], list[at + 1]];
      if (first === undefined || second === undefined) return;
      void store.edit(place, putting(path, [...list.slice(0, at), second, first, ...list.slice(at + 2)]));
    },
  };
}
