/**
 * The scheduler on the instance sets of Kolisch & Sprecher (1996), against the optimum (j30) and the best known
 * makespans (j60, j120): `node dist/tests/bench/plan.js [j30 j60 j120]`. Every schedule is checked by an
 * independent checker, and every critical path against the length that its file states. The sets lie outside the
 * project, in `../shared/references/psplib`.
 */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { compileProblem } from '../../src/plan/solver/network.js';
import type { Problem } from '../../src/plan/solver/problem.js';
import { criticalPath } from '../../src/plan/solver/rules.js';
import { readSmFile } from '../../src/plan/solver/sm-file.js';
import { solve } from '../../src/plan/solver/solve.js';
import { brokenRules, lengthOf } from '../support/feasible.js';

const SETS = { j30: [0.2, 0.07, 0.1, 0.04], j60: [1, 0.75, 0.8, 0.5], j120: [3.9, 2.9, 3.4, 2.5] } as const;
const BUDGETS = [1000, 5000] as const;
const SEED = 1;
const FOLDER = join(process.cwd(), '../shared/references/psplib');

type SetName = keyof typeof SETS;
type Instance = { name: string; problem: Problem; best: number };

function load(set: SetName): Instance[] {
  const [head = '', ...rows] = readFileSync(join(FOLDER, `${set}-bounds.csv`), 'utf8')
    .trim()
    .split(/\r?\n/);
  const columns = head.split(',');
  return rows.map((row) => {
    const cells = row.split(',');
    const cell = (column: string): string => cells[columns.indexOf(column)] ?? '';
    const name = cell('instance');
    const read = readSmFile(readFileSync(join(FOLDER, set, `${name}.sm`), 'utf8'));
    if (!read.ok) throw new Error(`${name}, line ${read.fault.line}: ${read.fault.reason}`);
    const compiled = compileProblem(read.problem);
    if (!compiled.ok) throw new Error(`${name}: ${JSON.stringify(compiled.fault)}`);
    const path = criticalPath(compiled.network);
    if (path !== read.mpmTime)
      throw new Error(`${name}: critical path ${path}, its file says ${read.mpmTime}`);
    return { name, problem: read.problem, best: Number(cell('ub')) };
  });
}

function measure(instances: readonly Instance[], schedules: number) {
  let above = 0;
  let reached = 0;
  let slowest = 0;
  let made = 0;
  for (const { name, problem, best } of instances) {
    const began = performance.now();
    const result = solve(problem, { schedules, seed: SEED });
    slowest = Math.max(slowest, performance.now() - began);
    if (!result.ok) throw new Error(`${name}: ${JSON.stringify(result.fault)}`);
    const broken = brokenRules(problem, result.start);
    if (broken.length > 0) throw new Error(`${name}: ${broken.join('; ')}`);
    if (result.makespan !== lengthOf(problem, result.start))
      throw new Error(`${name}: its makespan is misstated`);
    if (result.schedules > schedules) throw new Error(`${name}: ${result.schedules} schedules`);
    made += result.schedules;
    above += (100 * (result.makespan / best - 1)) / instances.length;
    if (result.makespan <= best) reached += 1;
  }
  return { above, reached, slowest, made: made / instances.length };
}

function report(set: SetName): void {
  const instances = load(set);
  console.log(`${set}: ${instances.length} instances; all critical paths are as the files state`);
  BUDGETS.forEach((schedules, k) => {
    const { above, reached, slowest, made } = measure(instances, schedules);
    const [atMost, aim] = [SETS[set][k], SETS[set][k + 2]];
    console.log(
      `  ${schedules} schedules: ${above.toFixed(3)} % above (at most ${atMost}, aim ${aim}), ` +
        `${reached} of ${instances.length} at the best known, ${made.toFixed(0)} schedules made a time, ` +
        `slowest ${slowest.toFixed(0)} ms`,
    );
  });
}

const isSet = (name: string): name is SetName => name in SETS;
const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !isSet(name));
if (unknown.length > 0) {
  console.log(`there is no set ${unknown.join(', ')}; there are ${Object.keys(SETS).join(', ')}`);
  process.exitCode = 1;
} else if (!existsSync(FOLDER)) {
  console.log(`the instance sets are not there (${FOLDER}): nothing measured`);
} else {
  for (const set of asked.length > 0 ? asked.filter(isSet) : (['j30', 'j60', 'j120'] as const)) report(set);
}
