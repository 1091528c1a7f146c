import { addWorkingDays } from '../../src/plan/calendar.js';
import type { BenchShop, BenchTask, PlannedTask } from '../../src/plan/bench-plan.js';
import { startsOf } from '../../src/plan/bench-plan.js';
import { NO_HOLIDAYS } from '../../src/plan/holidays.js';
import { randomFrom } from '../../src/plan/random.js';

/** A Monday; all invented shops begin on it. */
export const MONDAY = '2026-03-02';

export const CALENDAR = {
  zone: 'Europe/London',
  days: [1, 2, 3, 4, 5],
  hours: { from: '08:00', to: '17:30' },
  closed: [{ from: '2026-03-11', to: '2026-03-12' }],
  holidays: NO_HOLIDAYS,
};

export type Invented = { tasks: BenchTask[]; shop: BenchShop };

/** An invented shop: 3 to 8 jobs of up to a dozen tasks each, one to three mechanics, things awaited from outside. */
export function inventShop(seed: number): Invented {
  const stream = randomFrom(seed);
  const random = (): number => stream.unit();
  const upTo = (most: number): number => Math.floor(random() * (most + 1));
  const tasks: BenchTask[] = [];
  for (let job = 0; job < 3 + upTo(5); job += 1) {
    const count = 3 + upTo(9);
    const wantedBy = upTo(2) === 0 ? null : addWorkingDays(CALENDAR, MONDAY, 5 + upTo(30));
    for (let n = 0; n < count; n += 1) {
      const before =
        upTo(3) === 0 || n === 0 ? [] : [{ id: `${job}/${upTo(n - 1)}`, lagDays: upTo(6) === 0 ? 5 : 0 }];
      tasks.push({
        id: `${job}/${n}`,
        job: String(job),
        hours: (1 + upTo(15)) / 2,
        after: before,
        notBefore: upTo(3) === 0 ? addWorkingDays(CALENDAR, MONDAY, upTo(15)) : null,
        wantedBy,
        weight: 1 + random(),
        stations: upTo(4) === 0 ? [['lift', 'lathe', 'parts washer'][upTo(2)] ?? ''] : [],
      });
    }
  }
  const mechanics = ['Ada', 'Bo', 'Cy'].slice(0, 1 + upTo(2)).map((id) => ({ id, calendar: CALENDAR }));
  const stations = { lift: 1, lathe: 1, 'parts washer': 1 };
  return {
    tasks,
    shop: { today: MONDAY, calendar: CALENDAR, mechanics, hoursADay: 5, stations, before: new Map() },
  };
}

/** The same shop with one thing awaited, or one task, a working day later. */
export function oneDayLater({ tasks, shop }: Invented, seed: number): Invented {
  const stream = randomFrom(seed);
  const random = (): number => stream.unit();
  const waiting = tasks.filter(({ notBefore }) => notBefore !== null);
  const among = waiting.length > 0 ? waiting : tasks;
  const moved = among[Math.floor(random() * among.length)];
  return {
    shop,
    tasks: tasks.map((task) =>
      task === moved ? { ...task, notBefore: addWorkingDays(CALENDAR, task.notBefore ?? MONDAY, 1) } : task,
    ),
  };
}

/** The share of a plan's coming week that stands on the same day in another; 1 where the week is empty. */
export function shareKept(before: readonly PlannedTask[], after: readonly PlannedTask[]): number {
  const end = addWorkingDays(CALENDAR, MONDAY, 5);
  const was = [...startsOf(before)].filter(([, { day }]) => day < end);
  const now = startsOf(after);
  const kept = was.filter(([id, { day }]) => now.get(id)?.day === day).length;
  return was.length === 0 ? 1 : kept / was.length;
}
