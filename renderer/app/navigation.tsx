import type { ReactNode } from 'react';
import { counted, keyedFaults, showMoment, usePlanMoment, useShop, useShopState } from '../tables';
import { type Address, hashOf } from './address';
import css from './app.module.css';
import { countFaults, hotKeyOf, SCREENS } from './screens';
import { WayBackButtons } from './way-back-buttons';

/** All screens by name, with what waits to be mended on each. */
export function Navigation({ address, onChangeMoment }: { address: Address; onChangeMoment: () => void }): ReactNode {
  const shop = useShop();
  const near = usePlanMoment();
  const view = useShopState((state) => state.view);
  const counts = countFaults(keyedFaults(view));
  return (
    <nav className={css.nav} aria-label="Screens">
      <div className={css.shop}>
        <strong title={shop.name}>{shop.name}</strong>
        <span>planning from</span>
        <span>{shop.planFrom === null ? 'the present moment' : showMoment(shop.planFrom, near)}</span>
        <button type="button" onClick={onChangeMoment}>
          change
        </button>
      </div>
      <ul>
        {SCREENS.map(({ id, name }, at) => (
          <li key={id}>
            <a
              href={hashOf({ ...address, screen: id })}
              aria-current={id === address.screen ? 'page' : undefined}
              aria-keyshortcuts={hotKeyOf(at)}
              title={hotKeyOf(at)}
            >
              {name}
              <Badge {...(counts.get(id) ?? { errors: 0, warnings: 0 })} />
            </a>
          </li>
        ))}
      </ul>
      <WayBackButtons />
    </nav>
  );
}

function Badge({ errors, warnings }: { errors: number; warnings: number }): ReactNode {
  if (errors + warnings === 0) return null;
  const say = [
    ...(errors > 0 ? [counted(errors, 'fault')] : []),
    ...(warnings > 0 ? [counted(warnings, 'warning')] : []),
  ].join(', ');
  return (
    <span className={css.badge} data-level={errors > 0 ? 'error' : 'warning'} title={say}>
      <span aria-hidden="true">{errors > 0 ? errors : warnings}</span>
      <span className={css.unseen}>{say}</span>
    </span>
  );
}
