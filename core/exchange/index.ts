export * from './csv';
export * from './files';
export * from './jobshop';
export * from './jobshop-shop';
export * from './lists';
export * from './sheet';
