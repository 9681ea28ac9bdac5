import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vitest/config';

const at = (path: string): string => fileURLToPath(new URL(`../${path}`, import.meta.url));
// Outside Electron the real module tries to download a binary; main/ is tested against a stand-in.
const alias = { electron: at('tests/support/fake-electron.ts') };

export default defineConfig({
  root: at('.'),
  test: {
    projects: [
      {
        resolve: { alias },
        test: {
          name: 'unit',
          include: ['tests/*.test.ts', 'tests/{bench,core,main,published}/**/*.test.ts'],
          environment: 'node',
          testTimeout: 60_000,
        },
      },
      {
        plugins: [react()],
        test: { name: 'renderer', include: ['tests/renderer/**/*.test.{ts,tsx}'], environment: 'happy-dom' },
      },
      {
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: ['tests/browser/planned-demo.ts'],
          environment: 'node',
          fileParallelism: false,
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
