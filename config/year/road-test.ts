import type { JobRun } from './job-run.js';
import { countOne } from './ledger.js';
import { standingOf } from './standing.js';
import type { World } from './world.js';
import { note, on } from './world.js';

const FAILS = 0.35;
const ANOTHER = 0.4;
const RIDES_BADLY = ['clutch slipping', 'jumps out of third', 'weeping oil at the rocker feed'] as const;
const FOUND_AFTER = ['front brake binds', 'horn does nothing', 'tail lamp flickers'] as const;

/** The machine is ridden; faults are found on some rides, and stop it there. */
export async function ride(world: World, run: JobRun): Promise<void> {
  const { dice } = world;
  if (run.stage === 'built') {
    note(world, run, { what: 'checked' });
    await on(world, run, 'checks 1 to 27 done');
  }
  const passed = !dice.chance(FAILS);
  note(world, run, { what: 'ridden', passed });
  if (passed) {
    await on(world, run, run.faultsFound > 0 ? 'road tested again, all good now' : 'road tested, all good');
    run.stage = 'ridden';
    return;
  }
  countOne(world.ledger, 'rides that failed');
  await on(world, run, `road test: ${dice.pick(RIDES_BADLY)}`);
  noteFault(run);
  if (dice.chance(ANOTHER)) {
    await on(world, run, `fault: ${dice.pick(FOUND_AFTER)}`);
    noteFault(run);
  }
  await mustHaveFaults(world, run);
  run.stage = 'faulty';
}

function noteFault(run: JobRun): void {
  run.faultsFound += 1;
  run.faults.push(run.faultsFound);
}

/** One fault a day is mended; once none is left, it is ridden again. */
export async function mend(world: World, run: JobRun): Promise<void> {
  const fault = run.faults.shift();
  if (fault === undefined) return ride(world, run);
  await on(world, run, `fault ${fault} fixed`);
  await mustHaveFaults(world, run);
}

async function mustHaveFaults({ stage, ledger }: World, run: JobRun): Promise<void> {
  const state = await standingOf(stage.record, run);
  const open = (state?.faults ?? [])
    .filter(({ clearedAt }) => clearedAt === null)
    .map(({ number }) => number);
  if (open.join() !== run.faults.join())
    ledger.breaches.push(
      `${run.title}: faults ${run.faults.join(', ') || 'none'} should be open, and are ${open.join(', ') || 'none'}`,
    );
  if (state?.gates['road-tested'].passed === true)
    ledger.breaches.push(`${run.title} stands as road-tested after a ride that failed`);
}
