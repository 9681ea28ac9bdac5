import type { ReactNode } from 'react';
import { keyedFaults, Notes, Section, useShopState, within } from '../tables';

/** Parts of the shop that no screen edits yet. */
const ELSEWHERE = ['tools', 'settings/floor', 'settings/tools'];

/** Faults of what is only in the shop file. */
export function OtherFaults(): ReactNode {
  const any = useShopState((state) =>
    keyedFaults(state.view).some(({ key }) => ELSEWHERE.some((part) => within(key, part))),
  );
  return (
    any && (
      <Section title="Tools and floor" lead="These stand in the shop file; mend them there and open it again.">
        {ELSEWHERE.map((part) => (
          <Notes key={part} of={part} />
        ))}
      </Section>
    )
  );
}
