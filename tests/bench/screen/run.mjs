// npm run bench:screen: builds if need be, then measures the screens in a browser.
import { ensureBuilt } from '../../../main/setup/build.mjs';
import { ensureBrowser } from '../../support/ensure-browser.mjs';

ensureBuilt();
const browser = ensureBrowser();
if (browser === null) process.exitCode = 1;
else {
  process.env.NIGHTLOAD_CHROMIUM = browser;
  const { benchScreen } = await import('./screen.ts');
  process.exitCode = await benchScreen(process.argv.slice(2));
}
