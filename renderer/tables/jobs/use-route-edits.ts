import type { Job, Operation } from '../../../core/shop';
import { type ListEdits, useListEdits } from '../fields';
import { keyOf, useShopStore } from '../store';

export type RouteEdits = ListEdits<Partial<Operation>>;

/** The key under which it is remembered that an operation is open. */
export function operationKey(job: Job, at: number): string {
  return keyOf({ table: 'jobs', id: job.id }, ['route', at]);
}

/** Edits of a route; what is open stays open when operations move. */
export function useRouteEdits(job: Job): RouteEdits {
  const store = useShopStore();
  const edits = useListEdits<Partial<Operation>>(['route'], job.route);
  const isOpen = (at: number): boolean => store.getState().open.has(operationKey(job, at));
  return {
    ...edits,
    swap: (at) => {
      if (at < 0 || at + 1 >= job.route.length) return;
      const [first, second] = [isOpen(at), isOpen(at + 1)];
      edits.swap(at);
      store.setOpen(operationKey(job, at), second);
      store.setOpen(operationKey(job, at + 1), first);
    },
    takeOut: (at, say) => {
      const open = job.route.map((_, i) => isOpen(i)).toSpliced(at, 1);
      edits.takeOut(at, say);
      for (const i of job.route.keys()) store.setOpen(operationKey(job, i), open[i] ?? false);
    },
  };
}
