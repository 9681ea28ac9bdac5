export * from './files';
export * from './jobshop';
export * from './jobshop-shop';
