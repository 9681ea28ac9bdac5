export * from './import-panel';
export * from './use-bringing';
