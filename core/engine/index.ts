export { type EngineOptions, type EngineProgress, planShop } from './plan-shop';
