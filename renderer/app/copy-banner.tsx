import { type ReactNode, useEffect } from 'react';
import { useStore } from 'zustand';
import { keyOfRef, NameField, OWN } from '../compare';
import { Button } from '../look';
import css from './copy-banner.module.css';
import type { Stores } from './stores';
import { goTo } from './use-address';

interface CopyBannerProps {
  readonly copy: string;
  /** Of the shop, not of the copy. */
  readonly stores: Stores;
}

/** Says on every screen that a copy is being changed and not the shop, and leads out of it. */
export function CopyBanner({ copy, stores: { compare, shop } }: CopyBannerProps): ReactNode {
  const copies = useStore(compare, (state) => state.copies);
  const ref = { copy, plan: null };
  const refused = useStore(compare, (state) => state.refusals.get(keyOfRef(ref)) ?? null);
  useEffect(() => {
    if (compare.getState().copies === null) void compare.getState().load();
  }, [compare]);
  const known = copies?.find(({ id }) => id === copy);
  const toShop = (): void => goTo({ screen: 'plan', copy: null });

  async function adopt(name: string): Promise<void> {
    const reply = await shop.take('copy.adopt', { id: copy }, `Adopted “${name}”.`);
    compare.getState().refuse(ref, reply.ok ? [] : reply.faults);
    if (reply.ok) toShop();
  }

  function compareWithShop(): void {
    compare.getState().compare({ before: OWN, after: ref });
    goTo({ screen: 'compare', copy: null });
  }

  return (
    <section className={css.banner} aria-label="What-if">
      {known === undefined ? (
        <p>{copies === null ? 'Opening the what-if' : 'This what-if is no longer there; it was discarded.'}</p>
      ) : (
        <>
          <span className={css.what}>What-if:</span>
          <span className={css.name}>
            <NameField
              name={known.name}
              label="Name of this what-if"
              placeholder="Give it a name"
              onName={(name) => compare.getState().name(ref, name)}
              onForgive={() => compare.getState().refuse(ref, [])}
            />
          </span>
          <p>You are changing a copy; the shop stays as it is.</p>
          <Button
            title="Makes its changes in the shop, as one change, and its plan the one to work by"
            onClick={() => void adopt(known.name)}
          >
            Adopt
          </Button>
          <Button onClick={compareWithShop}>Compare with the shop</Button>
        </>
      )}
      <Button onClick={toShop}>Back to the shop</Button>
      {refused !== null && (
        <p role="alert" className={css.refused}>
          {refused}
        </p>
      )}
    </section>
  );
}
