export * from './clock-time';
export * from './length';
export * from './moment';
export * from './number';
export * from './parsed';
export * from './words';
