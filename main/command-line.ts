import { fileURLToPath } from 'node:url';
import { runCommand } from './command';
import { workerBeside } from './solver';

/** The command line, bundled or from source. */
const screens = import.meta.url.endsWith('.ts') ? '../out/renderer' : '../renderer';

process.exitCode = await runCommand(process.argv.slice(2), {
  print: (text) => void process.stdout.write(text.endsWith('\n') ? text : `${text}\n`),
  remark: (text) => void process.stderr.write(`${text}\n`),
  onStop: (stop) => {
    process.once('SIGINT', stop);
    process.once('SIGTERM', stop);
  },
  worker: workerBeside(import.meta.url),
  screens: fileURLToPath(new URL(screens, import.meta.url)),
});
