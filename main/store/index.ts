export type { Origin } from './copy';
export * from './data-folder';
export type { StoredPlan } from './plan-rows';
export type { StoredShop } from './shop-rows';
export { type Changed, openStore, type Store, seatSchema } from './store';
