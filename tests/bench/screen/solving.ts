import type { Shop } from '../../../core/shop';
import { planShown, setSeconds, type Theatre } from './stage';
import { type Watched, watched } from './watch';

const SECONDS = 5;

/** The page while a plan is made beside it, for 5 s; `shop` null is the demo. */
export async function measureSolving(theatre: Theatre, shop: Shop | null): Promise<Watched> {
  const { folder } = await theatre.planned(shop, 1);
  const { page, close } = await theatre.stage(folder);
  await planShown(page);
  await setSeconds(page, SECONDS);
  const seen = await watched(page, async () => {
    await page.getByRole('button', { name: 'Plan again' }).click();
    // Looking for a button by its name reads the whole page in the page's own time; this does not.
    await page.locator('main[aria-busy="true"]').waitFor();
    await page.locator('main[aria-busy="false"]').waitFor();
  });
  await close();
  return seen;
}
