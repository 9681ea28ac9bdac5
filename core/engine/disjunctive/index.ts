export { type MachineShop, machineShopOf } from './machine-shop';
export { DisjunctiveSearch } from './search';
