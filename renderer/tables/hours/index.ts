export * from './block';
export * from './clock-spans';
export * from './closures';
export * from './day-exceptions';
export * from './days-field';
export * from './week';
export * from './week-strip';
export * from './weekly-spans';
