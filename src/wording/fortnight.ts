import type { WorkingCalendar } from '../plan/calendar.js';
import { isWorkingDay } from '../plan/calendar.js';
import type { PlannedTask } from '../plan/bench-plan.js';
import { dateOfDay, dayNumber } from '../plan/days.js';
import type { Fortnight } from '../plan/picture/fortnight.js';
import type { JobState } from '../job/state.js';
import type { Job, Speaker } from './answer.js';
import { shortDay } from './figures.js';
import { capital } from './lines.js';
import { stepName, thingName } from './things.js';

export const FORTNIGHT_CAPTION = 'The coming fortnight at the bench';

const DAYS = 14;
const SATURDAY = 6;

type Plan = { standings: readonly Job[]; tasks: readonly PlannedTask[]; mechanics: readonly string[] };

/** The words of the shop's fortnight: the days from today on, weekends left out, and who does what. */
export function fortnightOf(
  { standings, tasks, mechanics }: Plan,
  calendar: WorkingCalendar,
  speaker: Speaker,
): Fortnight {
  const first = dayNumber(speaker.today);
  const dates = Array.from({ length: DAYS }, (_, ahead) => dateOfDay(first + ahead));
  const shown = dates.filter((date) => isWorkingDay(calendar, date) || weekday(date) < SATURDAY);
  const byId = new Map(standings.map((job) => [job.id, job]));
  return {
    title: `The bench, ${shortDay(dates[0] ?? '', speaker)} to ${shortDay(dates.at(-1) ?? '', speaker)}`,
    today: speaker.today,
    days: shown.map((date) => ({ date, closed: isWorkingDay(calendar, date) ? null : 'closed' })),
    mechanics: mechanics.map((id) => speaker.name(id)),
    tasks: tasks
      .filter(({ day }) => shown.includes(day))
      .map(({ id, job, mechanic, day, hours }) => ({
        day,
        mechanic: speaker.name(mechanic),
        job: byId.get(job)?.state.title ?? '',
        task: taskName(byId.get(job)?.state, id, speaker),
        hours: Math.round(hours * 2) / 2,
      })),
    words: { hour: 'h', free: 'free' },
    locale: 'en-GB',
  };
}

/** ISO weekday: Monday 1 to Sunday 7; day 0 was a Thursday. */
const weekday = (date: string): number => ((dayNumber(date) + 3) % 7) + 1;

/** A planned task in a few words; its id ends with what the job's plan calls it. */
export function taskName(state: JobState | undefined, id: string, speaker: Speaker): string {
  const [, kind = '', about = ''] = /\/(step|work|look|set-up|ride)-?(.*)$/.exec(id) ?? [];
  const step = state?.steps.find((each) => kind === 'step' && each.id === about);
  if (step) return stepName(step, speaker);
  const item = state?.items[Number(about)];
  if (item) return capital(`${kind === 'look' ? 'look over' : 'work on'} the ${thingName(item, speaker)}`);
  return kind === 'ride' ? 'Road test' : 'Setting up';
}
