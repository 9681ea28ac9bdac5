import type { ReactNode } from 'react';
import {
  EditField,
  keyOf,
  MomentField,
  parseText,
  putting,
  showMoment,
  usePlanMoment,
  useShop,
  useShopState,
  useShopStore,
  WholeField,
} from '../tables';
import css from './settings.module.css';

const asIs = (text: string): string => text;

/** Name, zone, how far ahead and from when the shop is planned. */
export function ShopPart(): ReactNode {
  const shop = useShop();
  return (
    <dl className={css.list}>
      <dt>Name</dt>
      <dd>
        <EditField path={['name']} label="Name of the shop" value={shop.name} parse={parseText} show={asIs} size={36} />
      </dd>
      <dt>Time zone</dt>
      <dd>
        <EditField
          path={['zone']}
          label="Time zone"
          value={shop.zone}
          parse={parseText}
          show={asIs}
          suggest={Intl.supportedValuesOf('timeZone')}
          size={24}
        />
      </dd>
      <dt>Planned ahead</dt>
      <dd>
        <WholeField path={['horizonDays']} label="Days planned ahead" value={shop.horizonDays} least={1} size={3} />{' '}
        days
      </dd>
      <dt>Planned from</dt>
      <dd>
        <PlanFrom />
      </dd>
    </dl>
  );
}

function PlanFrom(): ReactNode {
  const { planFrom } = useShop();
  const store = useShopStore();
  const near = usePlanMoment();
  const present = useShopState((state) => state.view?.present ?? '');
  const put = (moment: string | null): void => void store.edit({ table: 'settings' }, putting(['planFrom'], moment));
  return (
    <fieldset className={css.radios} aria-label="Planned from">
      <label>
        <input
          type="radio"
          name="planFrom"
          checked={planFrom === null}
          data-at={planFrom === null ? keyOf({ table: 'settings' }, ['planFrom']) : undefined}
          onChange={() => put(null)}
        />
        the present moment
      </label>
      <label>
        <input type="radio" name="planFrom" checked={planFrom !== null} onChange={() => put(planFrom ?? present)} />a
        fixed moment
      </label>
      {planFrom !== null && <MomentField path={['planFrom']} label="Planned from" value={planFrom} size={18} />}
      {planFrom !== null && <span className={css.soft}>present: {showMoment(present, near)}</span>}
    </fieldset>
  );
}
