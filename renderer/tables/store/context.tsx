import { createContext, type ReactNode, useContext } from 'react';
import { useStore } from 'zustand';
import type { Shop } from '../../../core/shop';
import type { Place } from './place';
import type { ShopState, ShopStore } from './shop-store';

const StoreContext = createContext<ShopStore | null>(null);
const PlaceContext = createContext<Place | null>(null);

export function ShopProvider({ store, children }: { store: ShopStore; children: ReactNode }): ReactNode {
  return <StoreContext value={store}>{children}</StoreContext>;
}

/** Says which record the fields inside belong to. */
export function RecordOf({ place, children }: { place: Place; children: ReactNode }): ReactNode {
  return <PlaceContext value={place}>{children}</PlaceContext>;
}

export function useShopStore(): ShopStore {
  const store = useContext(StoreContext);
  if (store === null) throw new Error('nothing provides the shop here');
  return store;
}

export function usePlace(): Place {
  const place = useContext(PlaceContext);
  if (place === null) throw new Error('no record here');
  return place;
}

export function useShopState<T>(select: (state: ShopState) => T): T {
  return useStore(useShopStore(), select);
}

/** The shop; only for what is drawn once it has been read. */
export function useShop(): Shop {
  const shop = useShopState((state) => state.view?.shop);
  if (shop === undefined) throw new Error('the shop has not been read yet');
  return shop;
}

/** The moment planned from, as local time: dates without a year are near it. */
export function usePlanMoment(): string {
  return useShopState((state) => state.view?.shop.planFrom ?? state.view?.present ?? '2000-01-01T00:00');
}
