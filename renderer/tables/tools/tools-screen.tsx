import type { ReactNode } from 'react';
import type { Tool } from '../../../core/shop';
import { Button, CurveIcon } from '../../look';
import { ChoiceField, IdField, MinutesField, ShareField, TextField, TickField } from '../fields';
import { type Column, EditableTable, Notes } from '../grid';
import { Panel } from '../panel';
import { counted, TableScreen } from '../screen';
import { keyOf, useShop, useShopStore } from '../store';
import { Dressing } from './dressing';
import { fromSpeedKey, LifeFromSpeed } from './life-from-speed';
import { dressingText } from './tool-words';
import css from './tools.module.css';
import { usesOf, usesText } from './uses';
import { WhereUsed } from './where-used';

const KINDS = [
  { value: 'cutter', say: 'cutter' },
  { value: 'wheel', say: 'wheel' },
] as const;

/** The life, and for a cutter the way to the aid that reckons it. */
function Life({ tool }: { tool: Tool }): ReactNode {
  const store = useShopStore();
  return (
    <div className={css.life}>
      {tool.kind === 'cutter' ? (
        <Button
          rank="quiet"
          className={css.aid ?? ''}
          aria-label={`Life of ${tool.id} from cutting speed`}
          title="Life from cutting speed"
          onClick={() => store.arriveAt(fromSpeedKey(tool.id))}
        >
          <CurveIcon />
        </Button>
      ) : (
        <span className={css.aid} />
      )}
      <MinutesField path={['life']} label="Life" value={tool.life} some />
    </div>
  );
}

function Used({ tool }: { tool: Tool }): ReactNode {
  const shop = useShop();
  const text = usesText(usesOf(shop, tool.id));
  return (
    <span className={css.plain} title={text}>
      {text}
    </span>
  );
}

const COLUMNS: readonly Column<'tools'>[] = [
  { id: 'id', head: 'Tool', width: 72, draw: (t) => <IdField path={['id']} label="Tool" value={t.id} /> },
  { id: 'name', head: 'Name', draw: (t) => <TextField path={['name']} label="Name" value={t.name} /> },
  {
    id: 'kind',
    head: 'Kind',
    width: 68,
    draw: (t) => <ChoiceField path={['kind']} label="Kind" value={t.kind} choices={KINDS} />,
  },
  { id: 'life', head: 'Life', unit: 'min', width: 88, align: 'end', draw: (tool) => <Life tool={tool} /> },
  {
    id: 'lifeSpread',
    head: 'Spread',
    unit: '% of life',
    width: 68,
    align: 'end',
    draw: (t) => <ShareField path={['lifeSpread']} label="Spread of its life, percent" value={t.lifeSpread} />,
  },
  {
    id: 'replaceMinutes',
    head: 'Replace',
    unit: 'min',
    width: 66,
    align: 'end',
    draw: (t) => <MinutesField path={['replaceMinutes']} label="Minutes to replace it" value={t.replaceMinutes} />,
  },
  {
    id: 'finish',
    head: 'Finish',
    unit: 'one a cut',
    width: 72,
    draw: (t) => <TickField path={['finish']} label="Finish tool: one must cover the whole cut" value={t.finish} />,
  },
  {
    id: 'dressing',
    head: 'Dressed',
    unit: 'every',
    width: 132,
    draw: (t) => <span className={css.plain}>{dressingText(t)}</span>,
  },
  { id: 'used', head: 'Used', width: 132, draw: (tool) => <Used tool={tool} /> },
];

function ToolDetail({ tool }: { tool: Tool }): ReactNode {
  return (
    <>
      <Panel>
        {tool.kind === 'wheel' || tool.dressing !== null ? (
          <Dressing dressing={tool.dressing} />
        ) : (
          <LifeFromSpeed tool={tool} />
        )}
        <WhereUsed tool={tool} />
      </Panel>
      <Notes of={keyOf({ table: 'tools', id: tool.id }, ['dressing'])} />
    </>
  );
}

export function ToolsScreen(): ReactNode {
  const { tools } = useShop();
  const wheels = tools.filter((tool) => tool.kind === 'wheel').length;
  const lead =
    counted(tools.length, 'kind of tool', 'kinds of tools') + (wheels === 0 ? '' : `, ${wheels} of them wheels`);
  return (
    <TableScreen title="Tools" lead={lead}>
      <EditableTable
        table="tools"
        noun="tool"
        columns={COLUMNS}
        detail={(tool) => <ToolDetail tool={tool} />}
        detailFields={['dressing']}
        fresh={(id) => ({ id, life: tools.at(-1)?.life ?? USUAL_LIFE })}
        empty="No tools yet, so no life is counted: the night is planned as if every tool lasted. Type the first one's short name below; it starts as a cutter that lasts 60 min."
      />
    </TableScreen>
  );
}

/** Of a tool whose life nobody has said yet, minutes. */
const USUAL_LIFE = 60;
