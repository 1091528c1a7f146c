import type { Item, JobState, Line as OutLine } from '../../job/state.js';
import { dayNumber } from '../../plan/days.js';
import { GATES } from '../../trade/terms.js';
import type { Job, Speaker } from '../answer.js';
import { day, dayOf, shortDay } from '../figures.js';
import { agreementWords, decisionWords, findingWords, whereabouts } from '../item-words.js';
import type { Line } from '../lines.js';
import { bold, capital, quoted } from '../lines.js';
import { withWhom } from '../outside.js';
import { forWork, gateName } from '../terms.js';
import { faultName, itemName } from '../things.js';
import type { Ask, Reply } from './ask.js';
import { itemsAsked, namesItem, notListed } from './ask.js';

type Entry = { at: number; line: string };

/** What happened to a thing, or to the job, with days; how it stands comes first. */
export function history(ask: Ask, speaker: Speaker): Reply {
  if (!namesItem(ask)) return { lines: ask.jobs.flatMap((job) => jobHistory(job, speaker)) };
  const lines = ask.jobs.flatMap(({ state }) =>
    itemsAsked(state, ask).flatMap((item) => itemHistory(state, item, speaker)),
  );
  return lines.length > 0 ? { lines } : notListed(ask);
}

function itemHistory(state: JobState, item: Item, speaker: Speaker): Line[] {
  const decided = decisionWords(item);
  const answer = agreementWords(item, speaker);
  const entries: Entry[] = [
    ...item.findings.map(({ at, text, ...finding }) => ({
      at,
      line: [findingWords(finding), text === null ? '' : quoted(speaker.said(text), 160)]
        .filter((part) => part !== '')
        .join(' '),
    })),
    ...(item.decidedAt !== null && decided !== ''
      ? [{ at: item.decidedAt, line: `decided: ${decided}` }]
      : []),
    ...Object.values(state.lines)
      .filter((line) => line.item === item.number)
      .flatMap((line) => lineEntries(line, speaker)),
    ...state.notes
      .filter((note) => note.item === item.number)
      .map(({ at, text }) => ({ at, line: `note: ${quoted(speaker.said(text), 160)}` })),
  ];
  return [
    [bold(itemName(item, speaker)), `: ${whereabouts(state, item, speaker)}.`],
    ...inTime(entries, speaker),
    ...(answer === '' ? [] : [`• Owner: ${answer}`]),
  ];
}

function lineEntries(line: OutLine, speaker: Speaker): Entry[] {
  const whom = withWhom(line.supplier, speaker);
  const verb = line.kind === 'order' ? `ordered from ${whom}` : `gone to ${whom}${forWork(line.processes)}`;
  const ends: Readonly<Record<OutLine['status'], string>> = {
    open: '',
    part: 'part of it back',
    back: 'back',
    refused: 'back, not right',
  };
  return [
    { at: line.openedAt, line: verb },
    ...line.promises.map(({ at, due }) => ({ at, line: `promised for ${day(due, speaker)}` })),
    ...(line.returnedOn !== null && ends[line.status] !== ''
      ? [
          {
            at: dayNumber(line.returnedOn) * 86_400_000 + 43_200_000,
            line: `${ends[line.status]} from ${whom}`,
          },
        ]
      : []),
  ];
}

function inTime(entries: readonly Entry[], speaker: Speaker): string[] {
  return [...entries]
    .filter(({ line }) => line !== '')
    .sort((a, b) => a.at - b.at)
    .map(({ at, line }) => `• ${dayOf(at, speaker)}: ${line}`);
}

function jobHistory({ state }: Job, speaker: Speaker): Line[] {
  const entries: Entry[] = [
    ...GATES.flatMap((gate) => {
      const { at, passed, everPassed } = state.gates[gate];
      if (at === null || !everPassed) return [];
      return [{ at, line: `${gateName(gate)} ${passed ? 'passed' : 'opened again'}` }];
    }),
    ...state.faults.map((fault) => ({
      at: fault.foundAt,
      line: `${faultName(fault, speaker)}${fault.clearedAt === null ? '' : `, put right ${dayOf(fault.clearedAt, speaker)}`}`,
    })),
    ...(state.roadTest
      ? [
          {
            at: state.roadTest.at,
            line: `road test: ${state.roadTest.outcome === 'pass' ? 'passed' : 'faults found'}`,
          },
        ]
      : []),
  ];
  const arrival = state.arrival
    .map(({ text }) => quoted(speaker.said(text), 300))
    .filter((words) => words !== '');
  return [
    [
      bold(state.title),
      `: in since ${shortDay(state.arrivedOn, speaker)}${state.handedOverOn === null ? '' : `, handed over ${shortDay(state.handedOverOn, speaker)}`}.`,
    ],
    ...arrival.map((words) => `Came as: ${words}`),
    ...inTime(entries, speaker).map(capital),
  ];
}
