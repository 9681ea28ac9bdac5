import type { ReactNode } from 'react';
import { keyedFaults, Notes, Section, useShopState, within } from '../tables';

/** The part of the shop that no screen edits yet. */
const ELSEWHERE = 'settings/floor';

/** Faults of what is only in the shop file. */
export function OtherFaults(): ReactNode {
  const any = useShopState((state) => keyedFaults(state.view).some(({ key }) => within(key, ELSEWHERE)));
  return (
    any && (
      <Section title="Floor" lead="What stands on the floor is in the shop file; mend it there and open it again.">
        <Notes of={ELSEWHERE} />
      </Section>
    )
  );
}
