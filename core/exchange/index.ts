export * from './csv';
export * from './files';
export * from './import';
export * from './jobshop';
export * from './jobshop-shop';
export * from './lists';
