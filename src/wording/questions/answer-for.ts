import type { Answer, Button, Speaker } from '../answer.js';
import type { Line } from '../lines.js';
import { message } from '../lines.js';
import { agreed } from './agreed.js';
import type { Ask, Reply } from './ask.js';
import { blocking } from './blocking.js';
import { cost } from './cost.js';
import { findings } from './findings.js';
import { history } from './history.js';
import { holding } from './holding.js';
import { next } from './next.js';
import { overdue } from './overdue.js';
import { photos } from './photos.js';
import { ready } from './ready.js';
import { today } from './today.js';
import { where } from './where.js';

const SHORT_AT_MOST = 5;

/** Answers a mechanic's question from the record: the shortest useful answer, with a button for the rest. */
export function answerFor(ask: Ask, speaker: Speaker): Answer {
  const reply = replyTo(ask, speaker);
  const { lines, buttons = [], photos: pictures = [], voices = [] } = reply;
  const short = !ask.full && lines.length > SHORT_AT_MOST;
  const rest = (short || reply.more === true) && !ask.full ? [[theRest(ask)]] : [];
  const shown: readonly Line[] = short ? lines.slice(0, SHORT_AT_MOST) : lines;
  const job = ask.jobs.length === 1 ? ask.jobs[0] : undefined;
  return {
    ...message(shown, [...rest, ...buttons]),
    ...(pictures.length > 0 ? { photos: pictures } : {}),
    ...(voices.length > 0 ? { voices } : {}),
    ...(job ? { thread: { jobs: [job.id], message: '', item: ask.item } } : {}),
  };
}

function replyTo(ask: Ask, speaker: Speaker): Reply {
  if (ask.jobs.length === 0) return { lines: ['No machine is in yet, so there is nothing to tell.'] };
  const { about, supplier } = ask.question;
  const unknown = supplier !== null && ask.suppliers.length === 0;
  if (unknown && about !== 'blocking' && about !== 'where')
    return { lines: [`I don’t know ${supplier}. Say “people” to see whom I know.`] };
  switch (about) {
    case 'blocking':
      return blocking(ask, speaker);
    case 'where':
      return where(ask, speaker);
    case 'ready':
      return ready(ask, speaker);
    case 'overdue':
      return overdue(ask, speaker);
    case 'cost':
      return cost(ask, speaker);
    case 'next':
      return ask.today === null ? next(ask, speaker) : today(ask, ask.today, speaker);
    case 'agreed':
      return agreed(ask, speaker);
    case 'history':
      return history(ask, speaker);
    case 'holding':
      return holding(ask, speaker);
    case 'findings':
      return findings(ask, speaker);
    case 'photos':
      return photos(ask, speaker);
  }
}

function theRest({ jobs, question, item }: Ask): Button {
  const job = jobs.length === 1 ? (jobs[0]?.id ?? null) : null;
  return { label: 'The rest', action: { do: 'answer-more', job, question, item } };
}
