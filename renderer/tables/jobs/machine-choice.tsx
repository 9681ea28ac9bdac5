import type { ReactNode } from 'react';
import type { Operation } from '../../../core/shop';
import { Chips, LengthField, useListEdits } from '../fields';
import { faultsWithin, keyOf, type Path, usePlace, useShop, useShopState } from '../store';

type Choice = Operation['machines'][number];

/** The machines that can do an operation, each with its cycle for a full pallet. */
export function MachineChoice({ path, choices }: { path: Path; choices: readonly Choice[] }): ReactNode {
  const shop = useShop();
  const key = keyOf(usePlace(), path);
  const { add, takeOut } = useListEdits<Choice>(path, choices);
  const invalid = useShopState((state) => key in state.refusals || faultsWithin(state.view, key).length > 0);
  const named = choices.map((choice) => choice.machine);
  return (
    <Chips
      label="Machines"
      chips={choices.map((choice, at) => ({
        id: choice.machine,
        body: (
          <LengthField
            path={[...path, at, 'cycle']}
            label={`Cycle on ${choice.machine}`}
            value={choice.cycle}
            size={Math.max(4, String(Math.floor(choice.cycle / 60)).length + 3)}
            some
          />
        ),
      }))}
      more={shop.machines.map((machine) => machine.id).filter((id) => !named.includes(id))}
      addSay="add a machine"
      onAdd={(machine) => add({ machine, cycle: choices[0]?.cycle ?? 60 })}
      onTakeOut={(id) => takeOut(named.indexOf(id), `Took ${id} out.`)}
      at={key}
      invalid={invalid}
    />
  );
}
