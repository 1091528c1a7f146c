import { describe, expect, test } from 'vitest';
import { compileProblem } from '../../../src/plan/solver/network.js';
import { criticalPath } from '../../../src/plan/solver/rules.js';
import { readSmFile } from '../../../src/plan/solver/sm-file.js';
import { HANDMADE_SM as GOOD } from './handmade-sm.js';

const reasonAt = (text: string) => {
  const read = readSmFile(text);
  return read.ok ? null : `${read.fault.line}: ${read.fault.reason}`;
};

describe('a file of the published format', () => {
  test('is read in its own order', () => {
    const read = readSmFile(GOOD);
    expect(read).toMatchObject({
      ok: true,
      mpmTime: 6,
      problem: {
        activities: [
          { duration: 0 },
          { duration: 3, demands: [2, 0] },
          { duration: 2, demands: [1, 1] },
          { duration: 4, demands: [0, 2] },
          { duration: 0 },
        ],
        resources: [{ capacity: 2 }, { capacity: 2 }],
      },
    });
    const compiled = read.ok ? compileProblem(read.problem) : read;
    expect(compiled.ok && criticalPath(compiled.network)).toBe(6);
  });
  test('may have line ends of either kind', () => {
    expect(readSmFile(GOOD.replaceAll('\n', '\r\n'))).toEqual(readSmFile(GOOD));
  });
});

describe('a malformed file is refused, with the line', () => {
  test.each([
    ['', "0: the heading 'PRECEDENCE RELATIONS' is missing"],
    [GOOD.replace('5\n   3', 'x\n   3'), "11: 'x' is not a whole number"],
    [GOOD.replace('2           2   3', '3           2   3'), '10: job 1 says 3 successors and lists 2'],
    [GOOD.replace('1           4', '1           9'), '12: successor 9 is not among the 5 jobs'],
    [GOOD.replace('   4        1 ', '   4        2 '), '13: job 4 has 2 modes; one is expected'],
    [
      GOOD.replace('  3      1     2', '  7      1     2'),
      "21: job 3 is expected here, not '7      1     2       1    1'",
    ],
    [GOOD.replace('3       2    0', '3       4    0'), '20: job 2 wants 4 of R 1, there are 2'],
    [GOOD.replace('4       0    2', '4       0'), '22: a job, mode 1, its duration and 2 requests'],
    [
      GOOD.replace('  5      1     0       0    0\n', ''),
      '22: 5 jobs have successors given, 4 have durations',
    ],
    [GOOD.slice(0, GOOD.indexOf('    2    2')), "27: the file ends within 'RESOURCEAVAILABILITIES'"],
  ])('%#', (text, reason) => {
    expect(reasonAt(text)).toContain(reason);
  });
});
