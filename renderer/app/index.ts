export { carriedApi } from './api';
export { App } from './app';
export { createStores } from './stores';
