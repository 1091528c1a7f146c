import type { Gate } from '../../trade/terms.js';
import type { Instruction } from './instruction.js';
import type { Hearer } from './read-instruction.js';
import { dayIn } from './day.js';

const GATE_WORDS: readonly (readonly [RegExp, Gate])[] = [
  [/^(?:fully |all )?stripped(?: down)?$|^stripping$/, 'stripped'],
  [/^inspected$|^inspection$/, 'inspected'],
  [/^(?:all )?parts(?: all)? ordered$|^ordering$/, 'parts-ordered'],
  [/^(?:all )?sub-?let(?: all)? out$|^(?:everything|all) sent out$/, 'sublet-out'],
  [/^re-?assembled$|^(?:all )?built(?: up)?$|^reassembly$/, 'reassembled'],
  [/^road[- ]tested$|^road[- ]test$/, 'road-tested'],
];

/** The gate that words name, standing alone. */
export function gateNamed(words: string): Gate | null {
  const wanted = words.toLowerCase().trim();
  return GATE_WORDS.find(([pattern]) => pattern.test(wanted))?.[1] ?? null;
}

/** 'That's it stripped', 'pass inspected', 'want it inspected by the 14th', 'handed over'. */
export function readGateInstruction(text: string, { today, known }: Hearer): Instruction | null {
  if (
    /^(?:it's |it has been |it |it is |it's been )?hand(?:ed)? (?:it |her |him |the (?:bike|machine|job) )?(?:over|back)$/i.test(
      text,
    )
  )
    return { kind: 'hand-over' };
  const wanted = readWantedBy(
    text,
    today,
    known.machines.map(({ name }) => name),
  );
  if (wanted) return wanted;
  const passing =
    /^(?:pass |passed |that's (?:it |her |everything |all )?|it's |she's |all |now )?(?:the gate )?(.{4,30}?)(?: now| done| passed)?$/i.exec(
      text,
    );
  const gate = gateNamed(passing?.[1] ?? text);
  return gate === null ? null : { kind: 'pass-gate', gate };
}

function readWantedBy(text: string, today: string, machines: readonly string[]): Instruction | null {
  const want =
    /^(?:i |we )?(?:want|wants|wanted|need|must have) (?:(?:it|her|him|the job|the bike|done|finished|ready|everything) )*(.*?)(?: (?:done|finished|ready))?,? ?by (.+)$/i.exec(
      text,
    );
  if (!want) return null;
  const [, what = '', when = ''] = want;
  const date = dayIn(when, today);
  if (date === null) return null;
  const named = machines
    .reduce(
      (rest, name) =>
        rest
          .toLowerCase()
          .replace(name.toLowerCase(), '')
          .replace(/\bthe\b/, ''),
      what.toLowerCase(),
    )
    .trim();
  const gate = gateNamed(named);
  return gate !== null || named === '' ? { kind: 'want-by', gate, date } : null;
}
