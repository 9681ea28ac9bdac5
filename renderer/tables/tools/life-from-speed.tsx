import { type ReactNode, useState } from 'react';
import {
  constantFrom,
  exponentFrom,
  type LifeAtSpeed,
  lifeFromSpeed,
  type Result,
  refuse,
  speedFromLife,
  type Tool,
  USUAL_EXPONENTS,
} from '../../../core/shop';
import { Button } from '../../look';
import { Block } from '../hours';
import { Follows, Line } from '../panel';
import { parseAmount, parseReckonedMinutes } from '../parse';
import { keyOf, putting, usePlace, useShopStore } from '../store';
import { DraftField } from './draft-field';
import css from './tools.module.css';

/** Where the aid of a tool stands, for what leads to it. */
export function fromSpeedKey(id: string): string {
  return keyOf({ table: 'tools', id }, ['from-speed']);
}

interface Drafts {
  readonly speed: string;
  readonly life: string;
  readonly otherSpeed: string;
  readonly otherLife: string;
  readonly exponent: string;
  readonly newSpeed: string;
}

const LIVES: readonly (keyof Drafts)[] = ['life', 'otherLife'];
const parseOf = (of: keyof Drafts) => (LIVES.includes(of) ? parseReckonedMinutes : parseAmount);

/**
 * Reckons a life from another cutting speed, beside the life it may take the place of. Nothing typed here is kept but
 * the life, once it is used.
 */
export function LifeFromSpeed({ tool }: { tool: Tool }): ReactNode {
  const store = useShopStore();
  const place = usePlace();
  const [drafts, setDrafts] = useState<Drafts>({
    speed: '',
    life: String(tool.life),
    otherSpeed: '',
    otherLife: '',
    exponent: '0.25',
    newSpeed: '',
  });
  const draft = (of: keyof Drafts, label: string): ReactNode => (
    <DraftField
      label={label}
      text={drafts[of]}
      parse={parseOf(of)}
      at={of === 'speed' ? fromSpeedKey(tool.id) : null}
      onType={(text) => setDrafts((now) => ({ ...now, [of]: text }))}
    />
  );

  const numberIn = (of: keyof Drafts): number => {
    const parsed = parseOf(of)(drafts[of]);
    return parsed.ok ? parsed.value : Number.NaN;
  };
  const known = { speed: numberIn('speed'), life: numberIn('life') };
  const hasOther = drafts.otherSpeed !== '' && drafts.otherLife !== '';
  const hasKnown = drafts.speed !== '' && drafts.life !== '';
  const other = { speed: numberIn('otherSpeed'), life: numberIn('otherLife') };
  const measured = hasKnown && hasOther ? exponentFrom(known, other) : null;
  const exponent: Result<number> = measured ?? { ok: true, value: numberIn('exponent') };
  const newSpeed = numberIn('newSpeed');
  const life =
    !hasKnown || drafts.newSpeed === ''
      ? null
      : exponent.ok
        ? lifeFromSpeed(known, exponent.value, newSpeed)
        : refuse<number>(...exponent.faults);

  function use(minutes: number): void {
    const undo = `${tool.id} now lasts ${minutes} min in place of ${tool.life} min.`;
    void store.edit(place, { ...putting(['life'], minutes), undo });
  }

  return (
    <Block title="Life from cutting speed">
      <Line>
        At {draft('speed', 'Known speed')} m/min it lasts {draft('life', 'Known life')} min
      </Line>
      <Line>
        and, if measured too, at {draft('otherSpeed', 'Second speed')} m/min {draft('otherLife', 'Second life')} min
      </Line>
      {measured?.ok ? (
        <Follows>n {measured.value.toFixed(3)}, from the two lives</Follows>
      ) : (
        <Line>
          n {draft('exponent', 'Exponent n')}
          <span className={css.usual}>
            usual:{' '}
            {USUAL_EXPONENTS.map(({ edge, least, most }) => `${edge} ${least.toFixed(2)} to ${most.toFixed(2)}`).join(
              ', ',
            )}
          </span>
        </Line>
      )}
      <Line>
        At {draft('newSpeed', 'New speed')} m/min
        {life?.ok && <Follows>it lasts {life.value < 10 ? life.value.toFixed(1) : Math.floor(life.value)} min</Follows>}
        {life?.ok && life.value >= 1 && (
          <Button onClick={() => use(Math.floor(life.value))}>Use {Math.floor(life.value)} min</Button>
        )}
      </Line>
      {life?.ok && exponent.ok && <Follows>{curveText(known, exponent.value)}</Follows>}
      {life !== null && !life.ok && (
        <p role="status" className={css.wrong}>
          {[...new Set(life.faults.map((fault) => fault.say))].join(' ')}
        </p>
      )}
      <p className={css.caution}>
        V·Tⁿ = C, for one cutter, material, feed and depth, near the speed that was measured. A measured life beats it.
      </p>
    </Block>
  );
}

/** Where else the curve goes: its constant, and the speed for twice the life. */
function curveText(known: LifeAtSpeed, exponent: number): string {
  const constant = constantFrom(known, exponent);
  const twice = speedFromLife(known, exponent, 2 * known.life);
  return [
    ...(constant.ok ? [`C is ${Math.round(constant.value)} m/min`] : []),
    ...(twice.ok ? [`${2 * known.life} min at ${twice.value.toFixed(1)} m/min`] : []),
  ].join('; ');
}
