import { rasterise } from '../picture/rasterise.js';
import type { Answer } from '../wording/answer.js';
import { pictureCaption, timelineOf, noPicture } from '../wording/plan.js';
import { drawTimeline } from '../plan/picture/timeline.js';
import { drawFortnight } from '../plan/picture/fortnight.js';
import { faultText } from '../wording/plan-faults.js';
import { mergeAnswers } from '../wording/read-back.js';
import { FORTNIGHT_CAPTION, fortnightOf } from '../wording/fortnight.js';
import { shopPlan } from './bench-plan.js';
import { shopCalendar, todayOf } from './calendars.js';
import { planAll } from './planning.js';
import { speakerFor } from './speaker.js';
import type { Workplace } from './workplace.js';

const PICTURE_LIMIT_BYTES = 5_000_000;

/** A job's timeline as a picture: what is done, out, waiting, and forecast with its spread. */
export async function showTimeline(place: Workplace, job: string, now: number): Promise<Answer> {
  const standing = await place.store.job(job);
  const [{ plans, faults }, { policy }, people] = await Promise.all([
    planAll(place, [standing], now),
    place.store.shop(),
    place.deps.record.people.all(),
  ]);
  const speaker = speakerFor(todayOf(policy, now), policy, people, standing.texts);
  const fault = faults.get(job);
  if (fault) return faultText(standing.state, fault, speaker);
  const plan = plans.get(job);
  if (!plan) return noPicture();
  const png = rasterise(drawTimeline(timelineOf(standing, plan, speaker)));
  return picture(place, png, pictureCaption(standing.state.title));
}

/** Keeps a picture among the files, so that it is sent like any other. */
export async function picture(place: Workplace, png: Buffer, caption: string): Promise<Answer> {
  const kept = await place.deps.record.files.put(png, { mime: 'image/png', limitBytes: PICTURE_LIMIT_BYTES });
  return kept.outcome === 'kept'
    ? { text: [], buttons: [], photos: [{ hash: kept.hash, caption }] }
    : noPicture();
}

/** The coming fortnight at the bench, by mechanic. */
export async function showFortnight(place: Workplace, now: number): Promise<Answer> {
  const [plan, { policy }, people] = await Promise.all([
    shopPlan(place, now),
    place.store.shop(),
    place.deps.record.people.all(),
  ]);
  const texts = plan.standings.map((standing) => standing.texts);
  const speaker = speakerFor(todayOf(policy, now), policy, people, ...texts);
  const unplanned = plan.standings.flatMap(({ id, state }) => {
    const fault = plan.faults.get(id);
    return fault ? [faultText(state, fault, speaker)] : [];
  });
  if (plan.tasks.length === 0) return unplanned.length > 0 ? mergeAnswers(unplanned) : noPicture();
  const pages = drawFortnight(fortnightOf(plan, shopCalendar(policy), speaker)).map(rasterise);
  const answers = await Promise.all(pages.map((png) => picture(place, png, FORTNIGHT_CAPTION)));
  return mergeAnswers([...answers, ...unplanned]);
}
