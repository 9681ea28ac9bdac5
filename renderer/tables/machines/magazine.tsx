import type { ReactNode } from 'react';
import { type Machine, nightReserve, sistersLeft, type Tool } from '../../../core/shop';
import { Button, Each } from '../../look';
import { AddChoice, MinutesListField, ShareField, useListEdits } from '../fields';
import { Block } from '../hours';
import { Figures, Head, Line, Named, Told } from '../panel';
import { keyOf, useShop } from '../store';
import css from './machines.module.css';

type Entry = Machine['magazine'][number];

const PATH = ['magazine'];

/** The tools a machine holds, with what is left in each, and how much of them the night may use up. */
export function Magazine({ machine }: { machine: Machine }): ReactNode {
  const { tools } = useShop();
  const { add, takeOut } = useListEdits<Entry>(PATH, machine.magazine);
  const key = keyOf({ table: 'machines', id: machine.id });
  const held = new Set(machine.magazine.map((entry) => entry.tool));
  return (
    <Block title="Magazine">
      <Line>
        At night up to{' '}
        <ShareField
          path={['nightFraction']}
          label="Share of a life the night may use, percent"
          value={machine.nightFraction}
          size={4}
        />{' '}
        % of a tool's life may be used up
      </Line>
      {machine.magazine.length === 0 ? (
        <p className={css.none}>
          {tools.length === 0
            ? 'Empty. Kinds of tools are entered under Tools first.'
            : 'Empty: every tool an operation calls for has to be put in first.'}
        </p>
      ) : (
        <Figures label={`Magazine of ${machine.id}`} widths={[216, 150, 44, 200, 28]}>
          <thead>
            <tr>
              <Head say="Tool" />
              <Head say="Left in each" unit="min, in their order" />
              <Head say="New" unit="min" align="end" />
              <Head say="Together" />
              <th aria-label="Take out" />
            </tr>
          </thead>
          <tbody>
            <Each
              of={machine.magazine}
              draw={(entry, at) => {
                const tool = tools.find(({ id }) => id === entry.tool);
                return (
                  <tr>
                    <td>
                      <Named id={entry.tool} name={tool?.name ?? ''} />
                    </td>
                    <td data-column="left">
                      <MinutesListField
                        path={[...PATH, at, 'left']}
                        label={`Minutes left in each ${entry.tool}`}
                        value={entry.left}
                        placeholder="none"
                      />
                    </td>
                    <td data-align="end" className={css.derived}>
                      {tool?.life}
                    </td>
                    <td className={css.derived}>{tool === undefined ? '' : `= ${leftText(machine, tool)}`}</td>
                    <td>
                      <Button
                        rank="quiet"
                        aria-label={`Take ${entry.tool} out of ${machine.id}`}
                        onClick={() => takeOut(at, `Took ${entry.tool} out of ${machine.id}.`)}
                      >
                        ×
                      </Button>
                    </td>
                  </tr>
                );
              }}
            />
          </tbody>
        </Figures>
      )}
      <AddChoice
        say="Add tool"
        choices={tools.filter(({ id }) => !held.has(id))}
        onAdd={(id) => add({ tool: id, left: [tools.find((tool) => tool.id === id)?.life ?? 0] })}
        at={keyOf({ table: 'machines', id: machine.id }, PATH)}
      />
      {['magazine', 'nightFraction'].map((field) => (
        <Told key={field} of={`${key}/${field}`} />
      ))}
    </Block>
  );
}

/** What a kind has left on the machine: `390 min, 294 at night`; of a finish tool the longest cut it covers. */
function leftText(machine: Machine, tool: Tool): string {
  const left = sistersLeft(machine, tool);
  const atNight = left.map((minutes) => Math.max(0, minutes - nightReserve(machine, tool)));
  if (tool.finish) return `a cut of ${Math.max(...left)} min, ${Math.max(...atNight)} at night`;
  const sum = (minutes: readonly number[]): number => minutes.reduce((all, one) => all + one, 0);
  return `${sum(left)} min, ${sum(atNight)} at night`;
}
