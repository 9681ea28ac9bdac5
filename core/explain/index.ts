export * from './compare';
export * from './compare-words';
export { gapsOf } from './gaps';
export * from './late';
export * from './reasons';
export * from './report';
export * from './sheet';
