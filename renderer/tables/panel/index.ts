export * from './follows';
export * from './panel';
export * from './told';
