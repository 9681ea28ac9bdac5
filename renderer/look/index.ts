export * from './button';
export * from './each';
export * from './icons';
export * from './two-step-button';
