import type { Plan, Shop } from '../shop';
import { addDays, clockText, expandHours, type Interval, localAt, minuteOf } from '../time';
import { bestSwap, type Candidate, compareNights } from './compare';
import type { NightOptions, NightOutcome } from './outcome';
import { NightStudy } from './outcomes';

/** What might be had in addition. */
export type PurchaseKind = 'pallet' | 'place' | 'tool' | 'dressing' | 'person' | 'visit' | 'order';

/** One thing more that a night could be planned with. */
export interface Offer {
  readonly kind: PurchaseKind;
  /** What it is, in the shop's words: `One more pallet with fixture VISE4`. */
  readonly say: string;
  /** Its name among the linear program's prices, or null where it has none. */
  readonly priced: string | null;
  readonly shop: Shop;
}

/** What one thing more would bring, planned anew and played over the same nights. */
export interface Purchase {
  readonly kind: PurchaseKind;
  readonly say: string;
  /** Hours to expect more tonight, and half the width of the 95 % confidence interval. */
  readonly hours: number;
  readonly halfWidth: number;
  /** The same in the shop's currency, at the mean hourly rate of the machines that cut tonight. */
  readonly money: number;
  /** Weighted hours late less, over the whole plan. */
  readonly lateness: number;
  /** Hours by the linear program's dual price, or null where it has none for it. */
  readonly dual: number | null;
}

/** Makes a plan for a shop, beginning from another; the same effort for every offer. */
export type Replan = (shop: Shop, previous: Plan) => Promise<Plan>;

/** Half an hour more of a person. */
const HALF_AN_HOUR = 30;

/** Tool kinds offered: those whose lack costs most. */
const MOST_TOOLS = 3;

/** Everything worth trying for tonight: what the plan's own machines, pallets, tools and people have too little of. */
export function offersFor(shop: Shop, plan: Plan, outcome: NightOutcome, visitAt: string | null): Offer[] {
  return [
    ...morePallets(shop, plan),
    ...morePlaces(shop, outcome),
    ...moreTools(shop, plan, outcome),
    ...dressings(shop, plan),
    ...morePeople(shop, plan, outcome.stretch),
    ...aVisit(shop, plan, outcome.stretch, visitAt),
  ];
}

/** Plans the shop with the offer, from the plan without it, and plays both over the same nights. */
export async function priceOffer(
  offer: Offer,
  base: Candidate,
  replan: Replan,
  options: NightOptions,
  duals: ReadonlyMap<string, number>,
): Promise<Purchase> {
  const plan = await replan(offer.shop, base.plan);
  const changed = { shop: offer.shop, plan };
  const lateness = base.plan.cost.lateness - plan.cost.lateness;
  const { gain, halfWidth } = compareNights(base, changed, options);
  const dual = offer.priced === null ? null : (duals.get(offer.priced) ?? null);
  return { kind: offer.kind, say: offer.say, hours: gain, halfWidth, money: gain * rateOf(base), lateness, dual };
}

/** The best exchange of two neighbours, as a purchase that costs nothing; null if none gains. */
export function priceOrder(base: Candidate, options: NightOptions): Purchase | null {
  const swap = bestSwap(base.shop, base.plan, options);
  if (swap === null) return null;
  const say = `${swap.second} before ${swap.first} on ${swap.machine}`;
  const lateness = base.plan.cost.lateness - swap.plan.cost.lateness;
  return {
    kind: 'order',
    say,
    hours: swap.gain,
    halfWidth: swap.halfWidth,
    money: swap.gain * rateOf(base),
    lateness,
    dual: null,
  };
}

/** Mean hourly rate of the machines that cut tonight, by the hours loaded on each. */
function rateOf({ shop, plan }: Candidate): number {
  const rates = new Map(shop.machines.map((machine) => [machine.id, machine.ratePerHour]));
  const { machines } = new NightStudy(shop, plan, { nights: 1, seed: 1 }).outcome();
  const hours = machines.reduce((sum, { loaded }) => sum + loaded, 0);
  return hours === 0 ? 0 : machines.reduce((sum, m) => sum + m.loaded * (rates.get(m.machine) ?? 0), 0) / hours;
}

/** One more of each fixture that runs tonight or waits for a pallet. */
function morePallets(shop: Shop, plan: Plan): Offer[] {
  const used = new Set(plan.runs.map((run) => run.pallet));
  const fixtures = new Set(shop.pallets.filter((pallet) => used.has(pallet.id)).map((pallet) => pallet.fixture));
  return [...fixtures].map((fixture) => {
    const like = shop.pallets.find((pallet) => pallet.fixture === fixture && used.has(pallet.id))!;
    const pallet = { ...like, id: newId(shop.pallets, fixture), name: '' };
    return {
      kind: 'pallet',
      say: `One more pallet with fixture ${fixture}`,
      priced: `pallet ${fixture}`,
      shop: { ...shop, pallets: [...shop.pallets, pallet] },
    };
  });
}

function morePlaces(shop: Shop, outcome: NightOutcome): Offer[] {
  const cutting = new Set(outcome.machines.map(({ machine }) => machine));
  const own = shop.machines
    .filter((machine) => cutting.has(machine.id) && machine.cell === null && (machine.places ?? 0) > 0)
    .map((machine): Offer => {
      const machines = shop.machines.map((m) => (m === machine ? { ...m, places: (m.places ?? 0) + 1 } : m));
      return {
        kind: 'place',
        say: `One more place at ${machine.id}`,
        priced: `place machine ${machine.id}`,
        shop: { ...shop, machines },
      };
    });
  const cells = shop.cells.map((cell): Offer => {
    const more = shop.cells.map((c) => (c === cell ? { ...c, places: c.places + 1 } : c));
    return {
      kind: 'place',
      say: `One more place in cell ${cell.id}`,
      priced: `place cell ${cell.id}`,
      shop: { ...shop, cells: more },
    };
  });
  return [...own, ...cells];
}

/** A fresh sister tool where a tool stops machines, or has to be replaced. */
function moreTools(shop: Shop, plan: Plan, outcome: NightOutcome): Offer[] {
  const stops = outcome.stops.flatMap(({ kind, machine, name }) =>
    kind === 'tool' && machine !== null && name !== null ? [{ machine, tool: name }] : [],
  );
  const replaced = plan.care.flatMap(({ machine, acts }) => acts.map(({ tool }) => ({ machine, tool })));
  const wanted = new Map([...stops, ...replaced].map((each) => [`${each.machine}/${each.tool}`, each]));
  return [...wanted.values()].slice(0, MOST_TOOLS).map(({ machine: id, tool }) => {
    const life = shop.tools.find((each) => each.id === tool)?.life ?? 0;
    const machines = shop.machines.map((machine) =>
      machine.id === id ? { ...machine, magazine: withSister(machine.magazine, tool, life) } : machine,
    );
    return { kind: 'tool', say: `One more ${tool} in ${id}`, priced: null, shop: { ...shop, machines } };
  });
}

function withSister(magazine: Shop['machines'][number]['magazine'], tool: string, life: number) {
  return magazine.some((entry) => entry.tool === tool)
    ? magazine.map((entry) => (entry.tool === tool ? { ...entry, left: [...entry.left, life] } : entry))
    : [...magazine, { tool, left: [life] }];
}

/** Wheels that somebody dresses, dressed by the machine in its cycle instead: as often as they need it, and alone. */
function dressings(shop: Shop, plan: Plan): Offer[] {
  const dressed = new Set(
    plan.care.flatMap(({ acts }) => acts.flatMap(({ tool, act }) => (act === 'dress' ? [tool] : []))),
  );
  return [...dressed].map((id) => ({
    kind: 'dressing',
    say: `${id} dressed by the machine`,
    priced: null,
    shop: {
      ...shop,
      tools: shop.tools.map((tool) =>
        tool.id === id && tool.dressing !== null
          ? { ...tool, dressing: { ...tool.dressing, by: 'machine' as const } }
          : tool,
      ),
    },
  }));
}

/** Whoever leaves last before tonight stays half an hour longer. */
function morePeople(shop: Shop, plan: Plan, stretch: Interval | null): Offer[] {
  if (stretch === null || stretch.start <= plan.now) return [];
  return shop.people.flatMap((person) => {
    const last = hoursOf(person, plan, stretch).findLast((span) => span.end === stretch.start);
    if (last === undefined) return [];
    const longer = withHours(shop, plan, person, stretch, (spans) =>
      spans.map((span) => (span.end === last.end ? { ...span, end: span.end + HALF_AN_HOUR } : span)),
    );
    const name = person.name === '' ? person.id : person.name;
    return longer === null
      ? []
      : [{ kind: 'person', say: `Half an hour more of ${name}`, priced: null, shop: longer } as const];
  });
}

/** Somebody comes for half an hour, at the time given or in the middle of the night. */
function aVisit(shop: Shop, plan: Plan, stretch: Interval | null, visitAt: string | null): Offer[] {
  if (stretch === null) return [];
  const start = visitAt === null ? Math.round((stretch.start + stretch.end) / 2) : minuteOf(plan.clock, visitAt);
  if (start <= stretch.start || start + HALF_AN_HOUR >= stretch.end) return [];
  const person = shop.people.find((each) => hoursOf(each, plan, stretch).some((span) => span.end === stretch.start));
  if (person === undefined) return [];
  const visited = withHours(shop, plan, person, { start, end: start }, (spans) => [
    ...spans,
    { start, end: start + HALF_AN_HOUR },
  ]);
  const say = `A visit of half an hour at ${clockText(plan.clock, start)}`;
  return visited === null ? [] : [{ kind: 'visit', say, priced: null, shop: visited }];
}

type Person = Shop['people'][number];

function hoursOf(person: Person, plan: Plan, around: Interval): readonly Interval[] {
  const within = { start: around.start - 1440, end: around.end + 1440 };
  return expandHours(plan.clock, within, person.hours, person.exceptions);
}

/** The shop with other hours of a person on the date of a minute; null where they would not fit into that date. */
function withHours(
  shop: Shop,
  plan: Plan,
  person: Person,
  { start }: Interval,
  change: (spans: readonly Interval[]) => readonly Interval[],
): Shop | null {
  const date = localAt(plan.clock, start - 1).slice(0, 10);
  const day = { start: minuteOf(plan.clock, `${date}T00:00`), end: minuteOf(plan.clock, `${addDays(date, 1)}T00:00`) };
  const spans = change(hoursOf(person, plan, day).filter((span) => span.start >= day.start && span.end <= day.end));
  if (spans.some((span) => span.end > day.end || span.start < day.start)) return null;
  const time = (minute: number) => (minute === day.end ? '24:00' : localAt(plan.clock, minute).slice(11));
  const hours = spans.map((span) => ({ from: time(span.start), to: time(span.end) }));
  const exceptions = [...person.exceptions.filter((e) => e.date !== date), { date, hours }];
  return { ...shop, people: shop.people.map((p) => (p === person ? { ...p, exceptions } : p)) };
}

function newId(rows: readonly { readonly id: string }[], like: string): string {
  let n = 1;
  while (rows.some((row) => row.id === `${like}+${n}`)) n++;
  return `${like}+${n}`;
}
