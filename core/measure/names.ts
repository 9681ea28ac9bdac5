import type { RunNeed, Shop } from '../shop';

/** `J-104 op 10`. */
export function operationName(need: RunNeed): string {
  return `${need.job.id} op ${need.operation.id}`;
}

/** `4 parts`. */
export function countText(count: number, one: string): string {
  return count === 1 ? `1 ${one}` : `${count} ${one}s`;
}

/** The person's name, or the id where there is none. */
export function personName(shop: Shop, id: string): string {
  return shop.people.find((p) => p.id === id)?.name || id;
}
