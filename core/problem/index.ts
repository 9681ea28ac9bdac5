export { problemOf } from './build';
export * from './problem';
