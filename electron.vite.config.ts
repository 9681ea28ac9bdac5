import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'electron-vite';

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  main: {
    build: {
      // The same bundle also runs in plain Node 20 (the command line), so not Electron's own Node.
      target: 'node20.19',
      sourcemap: true,
      rolldownOptions: {
        input: {
          electron: at('main/electron.ts'),
          'command-line': at('main/command-line.ts'),
          'solver-worker': at('main/solver/solver-worker.ts'),
          'night-worker': at('main/solver/night-worker.ts'),
          'trial-worker': at('main/solver/trial-worker.ts'),
        },
        output: { entryFileNames: '[name].js', chunkFileNames: 'chunks/[name]-[hash].js' },
      },
    },
  },
  preload: {
    build: {
      // A sandboxed preload must be one CommonJS file.
      externalizeDeps: false,
      rolldownOptions: {
        input: { preload: at('main/preload.ts') },
        output: { format: 'cjs', entryFileNames: '[name].cjs' },
      },
    },
  },
  renderer: {
    root: at('renderer'),
    plugins: [react()],
    build: {
      outDir: at('out/renderer'),
      emptyOutDir: true,
      // The content policy of the pages allows no data: scripts, styles or fonts.
      assetsInlineLimit: 0,
      rolldownOptions: { input: { index: at('renderer/index.html') } },
    },
  },
});
