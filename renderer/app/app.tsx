import { type ReactNode, useEffect, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import type { Fault } from '../../core/shop';
import { CompareScreen } from '../compare';
import { Button } from '../look';
import { PlanScreen } from '../plan';
import { ShopSettingsScreen } from '../settings';
import { ShiftsScreen } from '../shifts';
import {
  JobsScreen,
  keyOfFault,
  MachinesScreen,
  PalletsScreen,
  PeopleScreen,
  ShopProvider,
  ToolsScreen,
  UndoStrip,
  useArrival,
} from '../tables';
import { TonightScreen } from '../tonight';
import type { Address } from './address';
import css from './app.module.css';
import type { ConnectionStore } from './connection';
import { CopyBanner } from './copy-banner';
import { Navigation } from './navigation';
import { screenOfKey } from './screens';
import { copyStoresOf, type Stores } from './stores';
import { goTo, useAddress } from './use-address';
import { useWayBackKeys } from './use-way-back-keys';

/** The whole window, on the shop or on the copy of it that the address names. */
export function App({ stores: own }: { stores: Stores }): ReactNode {
  const address = useAddress();
  const { copy } = address;
  const [storesOfCopy] = useState(() => copyStoresOf(own));
  const stores = useMemo(() => (copy === null ? own : storesOfCopy(copy)), [own, storesOfCopy, copy]);
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
        {copy !== null && <CopyBanner copy={copy} stores={own} />}
        {view !== null && <Shell key={copy} stores={stores} address={address} />}
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

interface ShellProps {
  readonly stores: Stores;
  readonly address: Address;
}

function Shell({ stores, address }: ShellProps): ReactNode {
  const { screen, copy } = address;
  useArrival((key) => screenOfKey(key) === screen);
  useWayBackKeys(stores.shop);

  function showKey(key: string): void {
    goTo({ screen: screenOfKey(key), copy });
    stores.shop.arriveAt(key);
  }

  function showFault(fault: Fault): void {
    const shop = stores.shop.getState().view?.shop;
    if (shop !== undefined) showKey(keyOfFault(shop, fault));
  }

  return (
    <div className={css.shell}>
      <Navigation address={address} onChangeMoment={() => showKey('settings/planFrom')} />
      <div className={css.screen}>
        <Screen address={address} stores={stores} onShowFault={showFault} />
      </div>
      <UndoStrip />
    </div>
  );
}

interface ScreenProps extends ShellProps {
  readonly onShowFault: (fault: Fault) => void;
}

function Screen({ address: { screen, copy }, stores, onShowFault }: ScreenProps): ReactNode {
  const shopView = useStore(stores.shop, (state) => state.view);
  switch (screen) {
    case 'plan':
      return (
        shopView !== null && (
          <PlanScreen
            api={stores.api}
            planStore={stores.plan}
            desk={stores.desk}
            shopView={shopView}
            onShowFault={onShowFault}
          />
        )
      );
    case 'tonight':
      return (
        <TonightScreen
          api={stores.api}
          planStore={stores.plan}
          tonightStore={stores.tonight}
          mayRelease={copy === null}
        />
      );
    case 'shifts':
      return <ShiftsScreen planStore={stores.plan} />;
    case 'compare':
      return (
        shopView !== null && (
          <CompareScreen
            store={stores.compare}
            planStore={stores.plan}
            present={shopView.present}
            onOpen={(opened) => goTo({ screen: 'jobs', copy: opened })}
          />
        )
      );
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
