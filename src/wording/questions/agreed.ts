import { awaitsYes } from '../../job/needs.js';
import type { Button, Job, Speaker } from '../answer.js';
import { agreementWords, costWords } from '../item-words.js';
import type { Line } from '../lines.js';
import { bold } from '../lines.js';
import { itemName } from '../things.js';
import type { Ask, Reply } from './ask.js';
import { itemsAsked, namesItem, rulesOf } from './ask.js';

/** What the owner said yes or no to, what they were asked and haven't answered, and what still wants asking. */
export function agreed(ask: Ask, speaker: Speaker): Reply {
  const replies = ask.jobs.map((job) => agreedOn(ask, job, speaker));
  return {
    lines: replies.flatMap(({ lines }) => lines),
    buttons: replies.flatMap(({ buttons }) => buttons ?? []),
  };
}

function agreedOn(ask: Ask, { id, state }: Job, speaker: Speaker): Reply {
  const title = bold(state.title);
  if (state.owner === null) return { lines: [[title, ': nobody is down as its owner.']] };
  const items = namesItem(ask) ? itemsAsked(state, ask) : Object.values(state.items);
  const settled = items.filter(({ agreement }) => agreement.status !== 'not-asked');
  const wanting = items.filter(
    (item) => item.agreement.status === 'not-asked' && awaitsYes(state, item, rulesOf(ask)),
  );
  const owner = speaker.name(state.owner);
  const head: Line = [
    title,
    `, ${owner}${settled.length + wanting.length === 0 ? ': nothing asked or agreed yet.' : ':'}`,
  ];
  const ask1: Button[][] =
    wanting.length > 0
      ? [
          [
            {
              label: 'Ask the owner',
              action: { do: 'ask-owner', job: id, items: wanting.map(({ number }) => number) },
            },
          ],
        ]
      : [];
  return {
    lines: [
      head,
      ...settled.map((item) => `• ${itemName(item, speaker)}: ${agreementWords(item, speaker)}`),
      ...wanting.map((item) => `• ${itemName(item, speaker)}, ${costWords(item)}: not asked yet`),
    ],
    buttons: ask1,
  };
}
