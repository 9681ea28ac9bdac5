import type { ReactNode } from 'react';
import { Button, Each } from '../../look';
import { AddChoice, MinutesField } from '../fields';
import { Block } from '../hours';
import { Figures, Follows, Head, Named, Told } from '../panel';
import { keyOf, type Path, usePlace, useShop, useShopStore } from '../store';
import type { CareProps } from './care-props';
import { inCutText } from './care-words';
import css from './jobs.module.css';
import { changing } from './proof-edits';

/** A cut nobody has said yet, minutes. */
const SOME_CUT = 10;

/** The tools an operation uses, each with its minutes in the cut for a full pallet. */
export function OperationTools({ operation, at }: CareProps): ReactNode {
  const { tools } = useShop();
  const store = useShopStore();
  const place = usePlace();
  const path: Path = ['route', at, 'tools'];
  const named = new Set(operation.tools.map((use) => use.tool));

  function add(tool: string): void {
    const change = changing(at, (now) => ({ ...now, tools: [...now.tools, { tool, minutes: SOME_CUT }] }));
    void store.edit(place, { path, change });
  }

  function takeOut(tool: string, index: number): void {
    const change = changing(at, (now) => ({ ...now, tools: now.tools.filter((_, i) => i !== index) }));
    void store.edit(place, { path, change, undo: `Took ${tool} out of operation ${operation.id}.` });
  }

  return (
    <Block title="Tools">
      {operation.tools.length === 0 ? (
        <p className={css.none}>
          {tools.length === 0
            ? 'None. Kinds of tools are entered under Tools first.'
            : 'None: no life is counted for it.'}
        </p>
      ) : (
        <Figures label={`Tools of operation ${operation.id}`} widths={[200, 84, 28]}>
          <thead>
            <tr>
              <Head say="Tool" />
              <Head say="In cut" unit="min a pallet" align="end" />
              <th aria-label="Take out" />
            </tr>
          </thead>
          <tbody>
            <Each
              of={operation.tools}
              draw={(use, index) => (
                <tr>
                  <td>
                    <Named id={use.tool} name={tools.find(({ id }) => id === use.tool)?.name ?? ''} />
                  </td>
                  <td data-column="minutes">
                    <MinutesField
                      path={[...path, index, 'minutes']}
                      label={`Minutes of ${use.tool}`}
                      value={use.minutes}
                      some
                    />
                  </td>
                  <td>
                    <Button
                      rank="quiet"
                      aria-label={`Take ${use.tool} out of operation ${operation.id}`}
                      onClick={() => takeOut(use.tool, index)}
                    >
                      ×
                    </Button>
                  </td>
                </tr>
              )}
            />
          </tbody>
        </Figures>
      )}
      <AddChoice
        say="Add tool"
        choices={tools.filter(({ id }) => !named.has(id))}
        onAdd={add}
        at={keyOf(place, path)}
      />
      {operation.tools.length > 0 && <Follows>{inCutText(operation)}</Follows>}
      <Told of={keyOf(place, path)} />
    </Block>
  );
}
