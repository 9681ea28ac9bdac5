// node --import ./tests/support/register-fake-electron.mjs out/main/electron.js
// Runs the built main process without Electron: its windows become pages of a Chromium.
import { register } from 'node:module';

const stub = new URL('./electron-in-chromium.mjs', import.meta.url).href;
const hooks = `export const resolve = (specifier, context, next) => specifier === 'electron'
  ? { url: ${JSON.stringify(stub)}, format: 'module', shortCircuit: true }
  : next(specifier, context);`;
register(`data:text/javascript,${encodeURIComponent(hooks)}`);
