import type { Answer } from '../wording/answer.js';
import type { Workplace } from './workplace.js';

/**
 * Does an update's work once: one that was finished before is answered from what was recorded, one that was
 * begun goes on from how it was understood then, which `work` is handed. An answer that must not be kept is made again.
 */
export async function finishOnce(
  { deps }: Workplace,
  key: string,
  work: (begun: unknown) => Promise<Answer>,
): Promise<Answer> {
  const { inbox } = deps.record;
  const found = await inbox.find(key);
  if (found.state === 'done') return found.result as Answer;
  const answer = await work(found.state === 'begun' ? found.reading : null);
  if (!answer.unkept) await inbox.finish(key, answer);
  return answer;
}
