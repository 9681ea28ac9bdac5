export { Counterfactual } from './counterfactual';
export type { Finding } from './meeting';
export type { EngineOptions, EngineProgress } from './options';
export { planShop } from './plan-shop';
export { tonightPrices } from './prices';
export { EXTRA_HAND, EXTRA_PALLET, RELAXATIONS, type Relaxation } from './relax';
