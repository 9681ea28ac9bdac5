export * from './demo';
export * from './fault';
export * from './faults';
export * from './parse';
export * from './plan';
export * from './runs';
export * from './schema';
