import type { ReactNode } from 'react';
import type { NightOutcome, PlanView, Presets, Purchase } from '../../core/contract';
import { clockText, lengthText, type Minute, momentText } from '../../core/time';
import { Button } from '../look';
import styles from './tonight.module.css';
import type { Buying } from './tonight-store';
import { percent, stopText } from './words';

const MOST_STOPS = 6;
const MOST_WEAK = 4;

interface PartProps {
  readonly view: PlanView;
  readonly outcome: NightOutcome;
}

export function Section({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <section className={styles.part} aria-label={title}>
      <h2>{title}</h2>
      {children}
    </section>
  );
}

/** Each machine with what it has, what may be expected of it, and when it goes quiet and why. */
export function MachinesPart({ view, outcome }: PartProps) {
  const reports = new Map(view.report.machines.map((machine) => [machine.machine, machine]));
  const nights = new Map(outcome.machines.map((machine) => [machine.machine, machine]));
  const machines = view.shop.machines.filter(({ inUse, kind }) => inUse && kind !== 'bench');
  return (
    <Section title="Machines tonight">
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">Machine</th>
            <th scope="col" className={styles.number}>
              To expect
            </th>
            <th scope="col" className={styles.number}>
              Loaded
            </th>
            <th scope="col" className={styles.number}>
              Bad night
            </th>
            <th scope="col" className={styles.number}>
              Cuts at dawn
            </th>
            <th scope="col">Goes quiet</th>
          </tr>
        </thead>
        <tbody>
          {machines.map(({ id }) => {
            const night = nights.get(id);
            return (
              <tr key={id}>
                <th scope="row">{id}</th>
                <td className={styles.number}>{(night?.expected ?? 0).toFixed(1)} h</td>
                <td className={styles.number}>{(night?.loaded ?? 0).toFixed(1)} h</td>
                <td className={styles.number}>{night === undefined ? '' : `${night.badNight.toFixed(1)} h`}</td>
                <td className={styles.number}>{percent(night?.stillCutting ?? 0)}</td>
                <td className={styles.why}>{quietText(view, outcome, reports.get(id)?.quietFrom ?? null, id)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </Section>
  );
}

function quietText(view: PlanView, outcome: NightOutcome, from: Minute | null, machine: string): string {
  if (from === null) return 'not before morning';
  const gaps = view.report.machines.find((each) => each.machine === machine)?.gaps ?? [];
  const gap = gaps.find(({ start, end }) => start <= from && from < end);
  const isFromStart = outcome.stretch !== null && from <= outcome.stretch.start;
  const when = isFromStart ? 'from the start' : clockText(view.plan.clock, from);
  return gap === undefined ? when : `${when}: ${gap.say}`;
}

/** What stops a machine first, by the hours it costs on average; and the pallets least sure to come to something. */
export function RisksPart({ view, outcome }: PartProps) {
  const weak = [...outcome.runs].sort((a, b) => a.done - b.done).slice(0, MOST_WEAK);
  const pallets = new Map(view.plan.runs.map((run) => [run.run, run.pallet]));
  const stops = outcome.stops.slice(0, MOST_STOPS);
  const [wrong] = outcome.wrong;
  return (
    <>
      <Section title="What stops first">
        <p className={styles.remark}>Machine hours lost to it on an average night.</p>
        {stops.length === 0 && <p className={styles.none}>Nothing in this plan is said to stop a machine.</p>}
        <ol className={styles.list}>
          {stops.map((stop) => (
            <li key={`${stop.kind} ${stop.machine} ${stop.run} ${stop.name}`}>
              <span className={styles.what}>
                {stopText(stop)}
                <small>{stop.machine ?? 'several machines'}</small>
              </span>
              <span className={styles.figure}>{stop.lost.toFixed(2)} h</span>
              <small className={styles.figure}>{percent(stop.chance)} of nights</small>
            </li>
          ))}
        </ol>
      </Section>
      <Section title="Weak pallets">
        <ol className={styles.list}>
          {weak.map((run) => (
            <li key={run.run}>
              <span className={styles.what}>
                {pallets.get(run.run) ?? 'no pallet'}, {run.run}
                <small>
                  {run.machine}, {run.length.p10.toFixed(0)} to {run.length.p90.toFixed(0)} min
                </small>
              </span>
              <span className={styles.figure}>{percent(run.done)}</span>
              <small className={styles.figure}>of nights good</small>
            </li>
          ))}
        </ol>
        {wrong !== undefined && (
          <p className={styles.remark}>
            Wrong with nobody noticing: {wrong.job}, {wrong.mean.toFixed(2)} parts on average.
          </p>
        )}
      </Section>
    </>
  );
}

/** Tools that run out if nobody does what is planned, and how few new ones would make the night hold. */
export function ToolsPart(props: {
  readonly view: PlanView;
  readonly presets: Presets;
  /** When nobody is there any more to put one in. */
  readonly alone: Minute;
}) {
  const { view, presets, alone } = props;
  const { clock } = view.plan;
  const total = presets.kinds.reduce((sum, kind) => sum + kind.inOrder, 0);
  return (
    <Section title="Tools to preset">
      {total + presets.never.length === 0 && (
        <p className={styles.none}>The tools in the magazines last until morning.</p>
      )}
      {total > 0 && (
        <p className={styles.remark}>
          {total} new {total === 1 ? 'tool makes' : 'tools make'} the night hold. Put in before the time shown; the plan
          has somebody do it.
        </p>
      )}
      <ol className={styles.list}>
        {presets.kinds.map(({ machine, tool, inOrder, shortage }) => (
          <li key={`${machine} ${tool}`}>
            <span className={styles.what}>
              {inOrder} × {tool} into {machine}
              <small>
                else {shortage.pallet ?? 'no pallet'}, {shortage.run} runs short at {momentText(clock, shortage.minute)}
              </small>
            </span>
            <span className={styles.figure}>by {momentText(clock, Math.min(shortage.start, alone))}</span>
          </li>
        ))}
        {presets.never.map(({ machine, tool, run, pallet, minute, missing }) => (
          <li key={`never ${machine} ${tool}`}>
            <span className={styles.what}>
              <strong className={styles.short}>
                {tool} in {machine} cannot last
              </strong>
              <small>
                {pallet ?? 'no pallet'}, {run} wants {lengthText(missing)} more than new tools give, at{' '}
                {momentText(clock, minute)}
              </small>
            </span>
          </li>
        ))}
      </ol>
    </Section>
  );
}

/** What would bring more hours tonight, each planned anew and played over the same nights. */
export function BuysPart(props: {
  readonly buying: Buying;
  readonly visit: string;
  onVisit(time: string): void;
  onBuy(): void;
}) {
  const { buying, visit, onVisit, onBuy } = props;
  const isRunning = buying.state === 'running';
  const nothing = buying.purchases.filter((purchase) => !isGain(purchase)).map(({ say }) => lowered(say));
  return (
    <Section title="What would buy more">
      <div className={styles.ask}>
        <label>
          Visit at{' '}
          <input
            value={visit}
            size={5}
            inputMode="numeric"
            placeholder="02:00"
            aria-invalid={!isClockTime(visit)}
            disabled={isRunning}
            onChange={(event) => onVisit(event.target.value)}
          />
        </label>
        <Button disabled={isRunning || !isClockTime(visit)} onClick={onBuy}>
          {buying.state === 'not-asked' ? 'Work it out' : 'Work it out again'}
        </Button>
      </div>
      <p className={styles.remark} role="status">
        {buyingText(buying)}
      </p>
      <ol className={styles.list}>
        {buying.purchases.filter(isGain).map((purchase) => (
          <li key={purchase.say}>
            <span className={styles.what}>
              {purchase.say}
              <small>{[dualText(purchase), latenessText(purchase)].filter((text) => text !== null).join(', ')}</small>
            </span>
            <span className={styles.figure}>+{purchase.hours.toFixed(1)} h</span>
            <small className={styles.figure}>{purchase.money > 0 ? `worth ${purchase.money.toFixed(0)}` : ''}</small>
          </li>
        ))}
      </ol>
      {nothing.length > 0 && <p className={styles.remark}>Nothing to gain tonight from: {nothing.join('; ')}.</p>}
    </Section>
  );
}

/** `HH:MM`. */
function isClockTime(text: string): boolean {
  return /^([01]\d|2[0-3]):[0-5]\d$/.test(text);
}

function buyingText({ state, left }: Buying): string {
  if (state === 'not-asked')
    return 'Plans the night anew with one thing more at a time; takes about a quarter of a minute.';
  if (state === 'done') return 'Hours to expect more tonight, against planning anew with nothing more.';
  return left === null ? 'Planning anew with nothing more, to compare with.' : `${left} still to be worked out.`;
}

function isGain({ hours, halfWidth }: Purchase): boolean {
  return hours > halfWidth && hours >= 0.05;
}

function lowered(say: string): string {
  return /^[A-Z][a-z]/.test(say) ? say.charAt(0).toLowerCase() + say.slice(1) : say;
}

/** What the pooled hours of the linear program say of it. */
function dualText({ dual }: Purchase): string | null {
  return dual === null ? null : `dual price ${dual.toFixed(1)} h`;
}

function latenessText({ lateness }: Purchase): string | null {
  if (Math.abs(lateness) < 0.05) return null;
  return lateness > 0
    ? `and ${lateness.toFixed(1)} weighted h less late`
    : `but ${(-lateness).toFixed(1)} weighted h later`;
}
