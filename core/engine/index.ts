export type { Finding } from './meeting';
export { type EngineOptions, type EngineProgress, planShop } from './plan-shop';
export { tonightPrices } from './prices';
