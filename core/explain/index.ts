export * from './compare';
export * from './compare-words';
export * from './gaps';
export * from './late';
export * from './report';
export * from './sheet';
