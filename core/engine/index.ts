export type { Finding } from './meeting';
export type { EngineOptions, EngineProgress } from './options';
export { planShop } from './plan-shop';
export { tonightPrices } from './prices';
