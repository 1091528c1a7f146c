import { describe, expect, it } from 'vitest';
import {
  isTrade,
  leadTimePrior,
  measuredOnReturn,
  OTHER_LEAD_TIME,
  processesOf,
  processFacts,
} from '../../src/trade/processes.js';
import { PROCESSES } from '../../src/trade/terms.js';

describe('the facts of processes', () => {
  it('cover every process, with a lead time in a believable range (common practice, no source)', () => {
    expect(Object.keys(processFacts).sort()).toEqual([...PROCESSES].sort());
    for (const process of PROCESSES) {
      const { median, spread } = leadTimePrior(process);
      expect(median * Math.exp(1.28 * spread), `${process}: one in ten is later`).toBeLessThan(12 * 5);
      expect(median, process).toBeGreaterThanOrEqual(2);
    }
  });

  it('measure again what was cut or built up to size, and not what was only finished', () => {
    const sized = [
      'rebore',
      'regrind',
      'hone',
      'hard-chrome',
      'metal-spray',
      'reline',
      'ream',
      'skim',
    ] as const;
    const finished = ['paint', 'chrome', 'polish', 'zinc', 'transfer', 'upholster'] as const;
    expect(sized.filter((process) => !measuredOnReturn(process))).toEqual([]);
    expect(finished.filter(measuredOnReturn)).toEqual([]);
  });

  it('want no process before itself, directly or round about', () => {
    const before = (process: (typeof PROCESSES)[number], seen: string[]): string[] =>
      processFacts[process].first.flatMap((first) =>
        seen.includes(first) ? [...seen, first] : before(first, [...seen, first]),
      );
    for (const process of PROCESSES) expect(before(process, [process]), process).toEqual([]);
  });

  it('have a prior for work of no known process', () => {
    expect(leadTimePrior('pinstripe')).toBe(OTHER_LEAD_TIME);
    expect(leadTimePrior('toString')).toBe(OTHER_LEAD_TIME);
  });
});

describe('a supplier named by trade alone', () => {
  it.each([
    'the plater',
    'Plater',
    'the platers',
    'the gauge man',
    "the plater's",
    'wheel builder',
    'my upholsterer',
  ])('is told: %s', (name) => expect(isTrade(name)).toBe(true));
  it.each(['Harrow Plating', 'Mrs Dale', 'Tom the plater', 'the man', ''])(
    'is not taken for a trade: %s',
    (name) => expect(isTrade(name)).toBe(false),
  );
  it('does what the trade does', () => {
    expect(processesOf('the plater')).toEqual(['chrome', 'nickel', 'zinc', 'strip-plating']);
    expect(processesOf('Mrs Dale')).toEqual([]);
  });
});
