export * from './editable-table';
export * from './ids';
export * from './notes';
export * from './undo-strip';
export * from './use-arrival';
