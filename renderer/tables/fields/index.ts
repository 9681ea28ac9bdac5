export * from './add-choice';
export * from './chips';
export * from './choice-fields';
export * from './edit-field';
export * from './typed-fields';
export * from './use-edits';
