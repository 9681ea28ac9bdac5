export * from './compare';
export * from './compare-words';
export { gapsOf } from './gaps';
export * from './late';
export * from './report';
export * from './sheet';
export { whyRun } from './why';
export { whyGap } from './why-gap';
export { whyLate } from './why-late';
