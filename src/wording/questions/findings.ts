import type { Finding, Item } from '../../job/state.js';
import type { Button, Job, Speaker } from '../answer.js';
import { dayOf } from '../figures.js';
import { decisionWords, findingWords } from '../item-words.js';
import type { Line } from '../lines.js';
import { bold, quoted } from '../lines.js';
import { itemName } from '../things.js';
import type { Ask, Reply } from './ask.js';
import { itemsAsked, namesItem, notListed } from './ask.js';

/** What was found on a thing, latest first; without one, the job's latest findings. */
export function findings(ask: Ask, speaker: Speaker): Reply {
  if (!namesItem(ask)) return { lines: ask.jobs.flatMap((job) => latest(job, speaker)) };
  const found = ask.jobs.flatMap((job) => itemsAsked(job.state, ask).map((item) => ({ job, item })));
  if (found.length === 0) return notListed(ask);
  return {
    lines: found.flatMap(({ item }) => ofItem(item, speaker)),
    buttons: found.slice(0, 3).flatMap(({ job, item }) => photoButton(job, item)),
  };
}

function ofItem(item: Item, speaker: Speaker): Line[] {
  const decided = decisionWords(item);
  const head: Line = [
    bold(itemName(item, speaker)),
    `: ${decided === '' ? 'nothing decided yet' : decided}.`,
  ];
  if (item.findings.length === 0) return [head, 'Nothing was found or said of it yet.'];
  return [
    head,
    ...[...item.findings]
      .reverse()
      .map((finding) => `• ${dayOf(finding.at, speaker)}: ${words(finding, speaker)}`),
  ];
}

function words(finding: Finding, speaker: Speaker): string {
  const said = finding.text === null ? '' : quoted(speaker.said(finding.text), 200);
  return [findingWords(finding), said].filter((part) => part !== '').join(' ') || 'looked at';
}

function latest({ state }: Job, speaker: Speaker): Line[] {
  const all = Object.values(state.items).flatMap((item) =>
    item.findings.map((finding) => ({ item, finding })),
  );
  if (all.length === 0) return [[bold(state.title), ': nothing found yet.']];
  const rows = all
    .sort((a, b) => b.finding.at - a.finding.at)
    .map(
      ({ item, finding }) =>
        `• ${dayOf(finding.at, speaker)}, ${itemName(item, speaker)}: ${words(finding, speaker)}`,
    );
  return [[bold(state.title), ': latest first'], ...rows];
}

function photoButton({ id, state }: Job, item: Item): Button[][] {
  const pictured =
    item.findings.some(({ attachments }) => attachments.length > 0) ||
    state.notes.some((note) => note.item === item.number && note.attachments.length > 0);
  return pictured
    ? [[{ label: `Photos of ${item.number}`, action: { do: 'show-photos', job: id, item: item.number } }]]
    : [];
}
