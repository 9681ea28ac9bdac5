export * from './context';
export * from './faults';
export * from './place';
export * from './shop-store';
