export * from './seat-store';
export * from './shop-settings-screen';
