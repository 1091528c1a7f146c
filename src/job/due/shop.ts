import { addWorkingDays, nextWorkingDay, startOfWork } from '../../plan/calendar.js';
import type { Gate } from '../../trade/terms.js';
import type { IsoDate, JobState } from '../state.js';
import type { Due, DueContext } from './due.js';

type Nudge = Extract<Due, { kind: 'nudge' }>;

/** Nudges to the mechanics as a wanted-by day nears, and once when it is missed. */
export function wantedDues({ gates, wantedBy }: JobState, context: DueContext): Due[] {
  const ofGates = Object.entries(wantedBy.gates) as [Gate, IsoDate][];
  const wanted: { gate: Gate | null; date: IsoDate }[] = ofGates
    .filter(([gate]) => !gates[gate].passed)
    .map(([gate, date]) => ({ gate, date }));
  if (wantedBy.job !== null) wanted.push({ gate: null, date: wantedBy.job });
  return wanted.flatMap(({ gate, date }) =>
    nudges(gate, date, context).filter(({ at }) => at > (wantedBy.setAt[gate ?? 'job'] ?? 0)),
  );
}

/**
 * After a time away only the nearest nudge that is past is worth saying, so an earlier one is left out once a later is
 * spoken of; and none that lay behind already as the day was set.
 */
function nudges(gate: Gate | null, date: IsoDate, context: DueContext): Due[] {
  const { shopCalendar: calendar, policy } = context;
  const nudge = (step: Nudge['step'], on: IsoDate): Nudge => ({
    id: `${context.job}~wanted~${gate ?? 'job'}~${date}~${step}`,
    at: startOfWork(calendar, on),
    kind: 'nudge',
    gate,
    step,
  });
  const before = [...policy.wantedBy.nudgeBefore]
    .sort((a, b) => b - a)
    .map((days) => nudge(`before-${days}`, addWorkingDays(calendar, date, -days, 'backward')));
  const steps = [...before, nudge('missed', nextWorkingDay(calendar, date))];
  const lastSpoken = steps.findLastIndex((step) => context.spokenOf(step.id) !== null);
  return steps.slice(lastSpoken + 1);
}
