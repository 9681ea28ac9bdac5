export { Changes } from './changes';
