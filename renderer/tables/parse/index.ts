export * from './clock-time';
export * from './length';
export * from './minutes-list';
export * from './moment';
export * from './number';
export * from './parsed';
export * from './percent';
export * from './words';
