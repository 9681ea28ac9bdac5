export { ShiftsScreen } from './shifts-screen';
