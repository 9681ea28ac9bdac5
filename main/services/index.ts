export { createServices, type Listener, type Services } from './services';
