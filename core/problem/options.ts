import { cutMinutes, type Machine, minutesAlone, type Operation, type RunNeed, type Shop } from '../shop';
import { NONE } from './problem';
import { indexOf, RowTable } from './rows';
import { type OptionOf, toolsOf } from './tools';

/** No limit, in minutes. */
const ENDLESS = 0x3fffffff;

/** Collects, run after run, the machines each may take, with the minutes, the people and the pallets there. */
export class Options {
  private readonly first = [0];
  private readonly machine: number[] = [];
  private readonly cut: number[] = [];
  private readonly crew: number[] = [];
  private readonly pallets: number[] = [];
  private readonly foreign: number[] = [];
  private readonly all: OptionOf[] = [];
  private readonly crews = new RowTable();
  private readonly palletSets = new RowTable();
  private readonly crewOfSkill = new Map<string, number>();
  /** By fixture and machine. */
  private readonly palletsOn = new Map<string, number>();
  private readonly machineIndex: ReadonlyMap<string, number>;

  constructor(private readonly shop: Shop) {
    this.machineIndex = indexOf(shop.machines);
  }

  /** All machines in use that the operation names, for the next run; `within`: of these only, where it is given. */
  addNamed(run: RunNeed, within: ReadonlySet<string> | undefined): void {
    for (const { machine, cycle } of run.operation.machines) {
      if (within?.has(machine) === false) continue;
      if (this.shop.machines[this.machineIndex.get(machine) ?? NONE]?.inUse) this.add(run, machine, cycle, false);
    }
  }

  /**
   * The option of the run being collected on the machine it is held on. Held on a machine its operation does not name it
   * stays there, at the first machine's cycle, as a conflict. NONE if there is no such machine.
   */
  held(run: RunNeed, machineId: string): number {
    for (let option = this.first.at(-1)!; option < this.machine.length; option++) {
      if (this.shop.machines[this.machine[option]!]!.id === machineId) return option;
    }
    if (!this.machineIndex.has(machineId)) return NONE;
    this.add(run, machineId, run.operation.machines[0]!.cycle, true);
    return this.machine.length - 1;
  }

  isForeign(option: number): boolean {
    return option !== NONE && this.foreign[option] === 1;
  }

  /** The run has its options; the next one follows. */
  close(): void {
    this.first.push(this.machine.length);
  }

  flat() {
    const tools = toolsOf(this.shop, this.all, (m) => this.skilled(this.shop.machines[m]!.skill));
    return {
      tools,
      optionFirst: Int32Array.from(this.first),
      optionMachine: Int32Array.from(this.machine),
      optionCut: Int32Array.from(this.cut),
      optionCrew: Int32Array.from(this.crew),
      optionPallets: Int32Array.from(this.pallets),
      optionAlone: Int32Array.from(this.all, ({ run, machine }, o) =>
        this.aloneOn(run, machine, tools?.isDayOnly[o] === 1),
      ),
      isForeign: Uint8Array.from(this.foreign),
      crews: this.crews.flat(),
      palletSets: this.palletSets.flat(),
    };
  }

  private add(run: RunNeed, machineId: string, cycle: number, isForeign: boolean): void {
    const index = this.machineIndex.get(machineId)!;
    const machine = this.shop.machines[index]!;
    const hand = machine.kind === 'bench' ? run.operation.load + run.operation.unload : 0;
    this.machine.push(index);
    this.cut.push(cutMinutes(run, cycle) + hand);
    this.crew.push(this.crewOf(run.operation, machine));
    this.pallets.push(this.palletsOf(run.operation, machine));
    this.foreign.push(Number(isForeign));
    this.all.push({ run, machine: index, cycle });
  }

  private aloneOn(run: RunNeed, machine: number, isDayOnly: boolean): number {
    if (this.shop.machines[machine]!.kind === 'bench') return ENDLESS;
    return isDayOnly ? 0 : Math.min(ENDLESS, minutesAlone(this.shop, run.operation));
  }

  private crewOf(operation: Operation, machine: Machine): number {
    return this.skilled(operation.skill || machine.skill);
  }

  private skilled(skill: string): number {
    return remembered(this.crewOfSkill, skill, () =>
      this.crews.add(this.shop.people.flatMap((p, i) => (skill === '' || p.skills.includes(skill) ? [i] : []))),
    );
  }

  private palletsOf(operation: Operation, machine: Machine): number {
    const { fixture } = operation;
    if (fixture === null) return NONE;
    const fits = (machines: readonly string[]) => machines.length === 0 || machines.includes(machine.id);
    return remembered(this.palletsOn, `${fixture}/${machine.id}`, () =>
      this.palletSets.add(
        this.shop.pallets.flatMap((p, i) => (p.inUse && p.fixture === fixture && fits(p.machines) ? [i] : [])),
      ),
    );
  }
}

/** Thousands of runs ask for the same few rows. */
function remembered(known: Map<string, number>, key: string, find: () => number): number {
  const found = known.get(key) ?? find();
  known.set(key, found);
  return found;
}
