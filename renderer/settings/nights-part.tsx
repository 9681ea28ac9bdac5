import type { ReactNode } from 'react';
import type { Shop } from '../../core/shop';
import { Button, Each } from '../look';
import {
  ChanceField,
  Chips,
  faultsWithin,
  keyOf,
  MinutesField,
  Section,
  ShareField,
  TextField,
  useListEdits,
  usePlace,
  useShop,
  useShopState,
  WholeField,
} from '../tables';
import css from './settings.module.css';

type Cause = Shop['night']['shared'][number];

/** What is usual of the shop's nights: repeats, spread, handling, proof and what stops several machines at once. */
export function NightsPart(): ReactNode {
  const { night } = useShop();
  return (
    <Section
      title="Nights"
      lead="What is usual when nobody is there. The values a shop begins with are common practice; put in what yours has measured."
    >
      <table className={css.usual}>
        <tbody>
          <Row
            name="Repeats planned for"
            unit="% of runs"
            say="a run is planned so long that its repeats fit in at least this share of runs."
          >
            <ShareField
              path={['night', 'repeatShare']}
              label="Repeats planned for, percent of runs"
              value={night.repeatShare}
            />
          </Row>
          <Row
            name="Cycle spread"
            unit="% of cycle"
            say="how far cycles spread about what is entered, beside repeats; only simulated nights use it."
          >
            <ShareField path={['night', 'cycleSpread']} label="Cycle spread, percent" value={night.cycleSpread} />
          </Row>
          <Row
            name="Handling"
            unit="% a change"
            say="chance that one pallet change stops the machine until somebody comes."
          >
            <ChanceField path={['night', 'handling']} label="Handling chance, percent" value={night.handling} />
          </Row>
          <Row
            name="Good runs needed"
            unit="runs"
            say="with a person in the shop, before an operation may run alone at all."
          >
            <WholeField path={['night', 'goodRuns']} label="Good runs needed" value={night.goodRuns} least={1} />
          </Row>
          <Row
            name="First time alone"
            unit="min"
            say="how long it may then cut alone; after that twice the longest it has run alone."
          >
            <MinutesField path={['night', 'firstAlone']} label="First time alone" value={night.firstAlone} some />
          </Row>
        </tbody>
      </table>
      <SharedCauses causes={night.shared} />
    </Section>
  );
}

function Row(props: { name: string; unit: string; say: string; children: ReactNode }): ReactNode {
  return (
    <tr>
      <th scope="row">{props.name}</th>
      <td>{props.children}</td>
      <td>{props.unit}</td>
      <td>{props.say}</td>
    </tr>
  );
}

const PATH = ['night', 'shared'];

function SharedCauses({ causes }: { causes: readonly Cause[] }): ReactNode {
  const { add, takeOut } = useListEdits<Cause>(PATH, causes);
  return (
    <fieldset className={css.causes} aria-label="Shared causes">
      <p>
        Shared causes stop several machines in one night: coolant, air, power, a probe's battery.
        {causes.length === 0 && ' None is entered.'}
      </p>
      <Each
        of={causes}
        draw={(cause, at) => (
          <div className={css.line}>
            <div className={css.spot}>
              <TextField path={[...PATH, at, 'name']} label="Shared cause" value={cause.name} placeholder="cause" />
            </div>
            <ChanceField
              path={[...PATH, at, 'chance']}
              label={`Chance of ${cause.name} in a night, percent`}
              value={cause.chance}
              size={5}
            />
            % a night stops
            <CauseMachines cause={cause} at={at} />
            <Button
              rank="quiet"
              aria-label={`Delete ${cause.name}`}
              onClick={() => takeOut(at, `Deleted the shared cause ${cause.name}.`)}
            >
              Delete
            </Button>
          </div>
        )}
      />
      <Button rank="quiet" onClick={() => add({ name: 'Power', chance: 0.01, machines: [] })}>
        Add shared cause
      </Button>
    </fieldset>
  );
}

function CauseMachines({ cause, at }: { cause: Cause; at: number }): ReactNode {
  const { machines } = useShop();
  const path = [...PATH, at, 'machines'];
  const key = keyOf(usePlace(), path);
  const { add, takeOut } = useListEdits<string>(path, cause.machines);
  const invalid = useShopState((state) => key in state.refusals || faultsWithin(state.view, key).length > 0);
  return (
    <Chips
      label={`Machines that ${cause.name} stops`}
      chips={cause.machines.map((id) => ({ id }))}
      none="all machines"
      more={machines.map((machine) => machine.id).filter((id) => !cause.machines.includes(id))}
      addSay="stops only chosen machines: add one"
      onAdd={add}
      onTakeOut={(id) => takeOut(cause.machines.indexOf(id), `Took ${id} out of ${cause.name}.`)}
      at={key}
      invalid={invalid}
    />
  );
}
