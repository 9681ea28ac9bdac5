export { HIGHEST_PORT, type LoopbackServer, serveLoopback } from './server';
