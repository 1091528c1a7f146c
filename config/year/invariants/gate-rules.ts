import type { Gate } from '../../../src/trade/terms.js';
import type { RecordedJobEvent } from '../../../src/job/evolve.js';
import type { Note, Pass } from '../notes.js';

/** Work that costs so much waits for the owner's yes (the design's default, in pounds). */
const YES_FROM = 50;

type Found = Extract<Note, { what: 'found' }>;

/** What is in a gate's way by what is known in the shop of one job, in words; null where nothing is. Apart from the service's blockers. */
export function inTheWay(gate: Gate, notes: readonly Note[]): string | null {
  const found = foundLast(notes);
  const has = (what: Note['what']): boolean => notes.some((each) => each.what === what);
  switch (gate) {
    case 'stripped':
      return null;
    case 'inspected':
      if (found.length === 0) return 'nothing was looked at';
      return found.some(({ cost }) => cost >= YES_FROM) && !has('agreed') ? 'the owner has not agreed' : null;
    case 'parts-ordered':
      return partNamed(
        found,
        (each) => each.wants === 'ordered' && lastOf(each, notes) === null,
        'not ordered',
      );
    case 'sublet-out':
      return partNamed(found, (each) => each.wants === 'sent' && isHereUndone(each, notes), 'still here');
    case 'reassembled':
      return (
        partNamed(found, (each) => !isReady(each, notes), 'not ready') ?? (has('built') ? null : 'not built')
      );
    case 'road-tested': {
      const ride = notes.findLast((each) => each.what === 'ridden');
      if (ride?.what !== 'ridden' || !ride.passed) return 'not ridden well';
      return has('checked') ? null : 'not checked';
    }
  }
}

/** What was found of each part last: what was decided anew of it holds no more. */
function foundLast(notes: readonly Note[]): Found[] {
  const found = notes.filter((each): each is Found => each.what === 'found');
  return [...new Map(found.map((each) => [each.part, each])).values()];
}

function partNamed(found: readonly Found[], test: (each: Found) => boolean, why: string): string | null {
  const part = found.find(test)?.part;
  return part === undefined ? null : `the ${part} is ${why}`;
}

type Moved = Extract<Note, { what: 'out' | 'back' }>;

/** The last that was told of its going or coming; null where it never went. */
const lastOf = ({ part }: Found, notes: readonly Note[]): Moved | null =>
  notes.findLast(
    (each): each is Moved => (each.what === 'out' || each.what === 'back') && each.part === part,
  ) ?? null;

function isHereUndone(each: Found, notes: readonly Note[]): boolean {
  const last = lastOf(each, notes);
  return last === null || (last.what === 'back' && last.refused);
}

function isReady(each: Found, notes: readonly Note[]): boolean {
  if (each.wants === 'done')
    return notes.some(({ what, ...of }) => what === 'worked' && 'part' in of && of.part === each.part);
  const last = lastOf(each, notes);
  return last?.what === 'back' && !last.refused;
}

/** A gate that was passed, and how many notes there were by then. */
export type Passed = Pick<Pass, 'job' | 'gate' | 'after'>;

/** The gates of a job that the record has as passed at a press, with what was known by that press; `after`: from a version on. */
export function passedBy(
  { job, title }: { job: string; title: string },
  presses: readonly Pass[],
  events: readonly RecordedJobEvent[],
  after: number,
): Passed[] {
  return events.flatMap((event) => {
    if (event.type !== 'gate-passed' || event.version <= after) return [];
    const { gate } = event.data;
    const press = presses.find((each) => each.job === job && each.gate === gate && each.at === event.at);
    return press ? [{ job: title, gate, after: press.after }] : [];
  });
}

/** No gate was passed while what the shop knows of the job forbids it. */
export function passedInTheWay(passed: readonly Passed[], notes: readonly Note[]): string[] {
  return passed.flatMap(({ job, gate, after }) => {
    const why = inTheWay(
      gate,
      notes.slice(0, after).filter((each) => each.job === job),
    );
    return why === null ? [] : [`${job} passed ${gate} though ${why}`];
  });
}
