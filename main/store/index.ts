export * from './data-folder';
export type { StoredPlan } from './plan-rows';
export type { StoredShop } from './shop-rows';
export { openStore, type Store, seatSchema } from './store';
