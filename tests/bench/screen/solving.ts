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
    await page.getByRole('button', { name: 'Stop, keep the best' }).waitFor();
    await planShown(page);
  });
  await close();
  return seen;
}
