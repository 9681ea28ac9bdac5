import { type ReactNode, useEffect } from 'react';
import { useStore } from 'zustand';
import type { Api } from '../../core/contract';
import type { Fault } from '../../core/shop';
import { Button } from '../look';
import { PlanScreen, type PlanStore } from '../plan';
import { type SeatStore, ShopSettingsScreen } from '../settings';
import { ShiftsScreen } from '../shifts';
import {
  JobsScreen,
  keyOfFault,
  MachinesScreen,
  PalletsScreen,
  PeopleScreen,
  ShopProvider,
  type ShopStore,
  ToolsScreen,
  UndoStrip,
  useArrival,
} from '../tables';
import { TonightScreen, type TonightStore } from '../tonight';
import css from './app.module.css';
import type { ConnectionStore } from './connection';
import { Navigation } from './navigation';
import { type ScreenId, screenOfKey } from './screens';
import { goTo, useScreen } from './use-screen';
import { useWayBackKeys } from './use-way-back-keys';

export interface Stores {
  readonly api: Api;
  readonly connection: ConnectionStore;
  readonly shop: ShopStore;
  readonly plan: PlanStore;
  readonly tonight: TonightStore;
  readonly seat: SeatStore;
}

/** The whole window. */
export function App({ stores }: { stores: Stores }): ReactNode {
  const view = useStore(stores.shop, (state) => state.view);
  const unread = useStore(stores.shop, (state) => state.unread);
  const theme = useStore(stores.seat, (state) => state.settings.theme);
  useEffect(() => {
    if (theme === 'system') delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = theme;
  }, [theme]);
  return (
    <ShopProvider store={stores.shop}>
      <div className={css.window}>
        <ConnectionStrip connection={stores.connection} />
        {view !== null && <Shell stores={stores} />}
        {view === null && unread === null && <p className={css.opening}>Opening the shop</p>}
        {view === null && unread !== null && <Unread faults={unread} onRetry={() => void stores.shop.read()} />}
      </div>
    </ShopProvider>
  );
}

function ConnectionStrip({ connection }: { connection: ConnectionStore }): ReactNode {
  const lost = useStore(connection, (state) => state.connection === 'lost');
  return (
    <div role="status">
      {lost && (
        <p className={css.lost}>Connection lost, retrying. What you change now is not taken until it is back.</p>
      )}
    </div>
  );
}

function Unread({ faults, onRetry }: { faults: readonly Fault[]; onRetry: () => void }): ReactNode {
  return (
    <div className={css.opening} role="alert">
      <p>The shop could not be opened.</p>
      {faults.map((fault) => (
        <p key={fault.say}>{fault.say}</p>
      ))}
      <Button rank="main" onClick={onRetry}>
        Try again
      </Button>
    </div>
  );
}

function Shell({ stores }: { stores: Stores }): ReactNode {
  const screen = useScreen();
  useArrival((key) => screenOfKey(key) === screen);
  useWayBackKeys(stores.shop);

  function showKey(key: string): void {
    goTo(screenOfKey(key));
    stores.shop.arriveAt(key);
  }

  function showFault(fault: Fault): void {
    const shop = stores.shop.getState().view?.shop;
    if (shop !== undefined) showKey(keyOfFault(shop, fault));
  }

  return (
    <div className={css.shell}>
      <Navigation screen={screen} onChangeMoment={() => showKey('settings/planFrom')} />
      <div className={css.screen}>
        <Screen screen={screen} stores={stores} onShowFault={showFault} />
      </div>
      <UndoStrip />
    </div>
  );
}

interface ScreenProps {
  readonly screen: ScreenId;
  readonly stores: Stores;
  readonly onShowFault: (fault: Fault) => void;
}

function Screen({ screen, stores, onShowFault }: ScreenProps): ReactNode {
  const shopView = useStore(stores.shop, (state) => state.view);
  switch (screen) {
    case 'plan':
      return shopView !== null && <PlanScreen planStore={stores.plan} shopView={shopView} onShowFault={onShowFault} />;
    case 'tonight':
      return <TonightScreen planStore={stores.plan} tonightStore={stores.tonight} />;
    case 'shifts':
      return <ShiftsScreen planStore={stores.plan} />;
    case 'jobs':
      return <JobsScreen />;
    case 'machines':
      return <MachinesScreen />;
    case 'pallets':
      return <PalletsScreen />;
    case 'tools':
      return <ToolsScreen />;
    case 'people':
      return <PeopleScreen />;
    case 'shop':
      return <ShopSettingsScreen api={stores.api} seat={stores.seat} />;
  }
}
