import { describe, expect, test } from 'vitest';
import { runSolve } from '../../config/commands/solve/run.js';
import { HANDMADE_SM } from '../plan/solver/handmade-sm.js';

const FILES: Record<string, string> = {
  'good.sm': HANDMADE_SM,
  'bad.sm': HANDMADE_SM.replace('  3      1     2 ', '  3      1     two '),
  'cycle.sm': HANDMADE_SM.replace(
    '   4        1          1           5',
    '   4        1          1           3',
  ),
};

function run(args: readonly string[]) {
  const said: string[] = [];
  const complained: string[] = [];
  const read = (file: string): string => {
    const text = FILES[file];
    if (text === undefined) throw new Error('no such file');
    return text;
  };
  let time = 0;
  const code = runSolve({
    args,
    read,
    say: (line) => said.push(line),
    complain: (line) => complained.push(line),
    clock: () => (time += 5),
  });
  return { code, said: said.map((line) => JSON.parse(line) as unknown), complained };
}

describe('the solve command', () => {
  test('says one line of JSON a file', () => {
    const { code, said, complained } = run(['--schedules', '50', 'good.sm', 'good.sm']);
    expect(code).toBe(0);
    expect(complained).toEqual([]);
    // By hand: jobs 2 and 3 can't share R 1, so 2 runs beside 4; the critical path of 6 is the bound.
    expect(said).toHaveLength(2);
    expect(said[0]).toMatchObject({ file: 'good.sm', makespan: 6, start: [0, 2, 0, 2, 6], ms: 5 });
  });
  test('says where a file is malformed, and solves the rest', () => {
    const { code, said, complained } = run(['--schedules=50', 'bad.sm', 'gone.sm', 'cycle.sm', 'good.sm']);
    expect(code).toBe(1);
    expect(said).toHaveLength(1);
    expect(complained).toEqual([
      "solve: bad.sm:21: 'two' is not a whole number",
      'solve: gone.sm: no such file',
      expect.stringMatching(/^solve: cycle\.sm: .*\b3\b.*\b4\b|\b4\b.*\b3\b/),
    ]);
  });
  test('keeps to its budget, and takes the number that starts its search', () => {
    const { said } = run(['--schedules', '1', '--seed', '7', 'good.sm']);
    expect(said[0]).toMatchObject({ schedules: 1 });
  });
  test.each([
    [],
    ['good.sm'],
    ['--schedules', '0', 'good.sm'],
    ['--schedules', 'x', 'good.sm'],
    ['--schedules', '5'],
    ['--what', '--schedules', '5', 'good.sm'],
  ])('asks for what is missing: %j', (...args) => {
    expect(run(args)).toEqual({ code: 2, said: [], complained: [expect.stringContaining('usage')] });
  });
});
