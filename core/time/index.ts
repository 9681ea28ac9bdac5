export * from './clock';
export * from './format';
export * from './hours';
export * from './interval';
export * from './stretches';
export * from './typed';
