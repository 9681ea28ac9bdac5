export * from './gaps';
export * from './late';
export * from './report';
export * from './sheet';
