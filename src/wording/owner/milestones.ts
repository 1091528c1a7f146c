import type { JobState } from '../../job/state.js';

type Milestone = { seen: string; steps: readonly string[] };

/** What an owner would see on the stand once steps of a build order are done, in the order a machine grows. */
export const MILESTONES: readonly Milestone[] = [
  { seen: 'the frame stands', steps: ['mount-frame'] },
  { seen: 'the engine is built', steps: ['fit-head', 'fit-timing-cover'] },
  { seen: 'the engine is in the frame', steps: ['fit-engine'] },
  { seen: 'the forks are on', steps: ['fit-forks'] },
  { seen: 'the mudguards are on', steps: ['fit-front-mudguard', 'fit-rear-mudguard'] },
  { seen: 'the wheels are in', steps: ['fit-front-wheel', 'fit-rear-wheel'] },
  { seen: 'the exhaust is on', steps: ['fit-exhaust'] },
  { seen: 'the handlebar is on', steps: ['fit-handlebar'] },
  { seen: 'the lamps are wired', steps: ['fit-headlamp', 'fit-rear-lamp'] },
  { seen: 'the tank and saddle are on', steps: ['fit-petrol-tank', 'fit-seat'] },
];

/** What has come to be seen since an instant, ms; steps that were dropped from the job are not waited for. */
export function seenSince({ steps }: JobState, since: number): string[] {
  return MILESTONES.flatMap((milestone) => {
    const wanted = steps.filter(({ id }) => milestone.steps.includes(id));
    const last = Math.max(0, ...wanted.map(({ fittedAt }) => fittedAt ?? 0));
    const done = wanted.length > 0 && wanted.every(({ fitted }) => fitted);
    return done && last > since ? [milestone.seen] : [];
  });
}
