export { TonightScreen } from './tonight-screen';
export { createTonightStore, type TonightStore } from './tonight-store';
