import { EventEmitter } from 'node:events';
import { describe, expect, it } from 'vitest';
import { onStopSignals } from '../../config/stop-signals.js';

describe('stop signals', () => {
  function heard(...signals: [at: number, signal: string][]): string[] {
    const target = new EventEmitter();
    const calls: string[] = [];
    let time = 0;
    const note = (call: string) => (): void => void calls.push(`${call} at ${time}`);
    onStopSignals({ drain: note('drain'), hurry: note('hurry') }, target, () => time);
    for (const [at, signal] of signals) {
      time = at;
      target.emit(signal);
    }
    return calls;
  }

  it('drain at the first, of either kind', () => {
    expect(heard([0, 'SIGTERM'])).toEqual(['drain at 0']);
    expect(heard([5, 'SIGINT'])).toEqual(['drain at 5']);
  });

  it('take what npm passes on at the same press for one', () => {
    expect(heard([5, 'SIGINT'], [6, 'SIGINT'])).toEqual(['drain at 5']);
  });

  it('hurry at a second press, or a supervisor that has waited', () => {
    expect(heard([5, 'SIGINT'], [6, 'SIGINT'], [2_000, 'SIGINT'])).toEqual(['drain at 5', 'hurry at 2000']);
    expect(heard([5, 'SIGINT'], [5_000, 'SIGTERM'])).toEqual(['drain at 5', 'hurry at 5000']);
  });
});
