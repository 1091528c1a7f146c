import type { Gate } from '../../trade/terms.js';
import { GATES } from '../../trade/terms.js';
import { gateNamed } from './gates.js';
import type { Instruction } from './instruction.js';
import type { Hearer } from './read-instruction.js';

/** Not every long number is one: frames and engines have theirs. */
const OWNERS_PHONE =
  /\b(?:owner|owned by|belongs to|belonging to|customer)(?: is|:)?(?: (?!(?:frame|engine|chassis|gearbox|no|reg)\b)[\p{L}.'’-]+){1,5},? ?(?:(?:tel|number|is|on)[:.]? ?)*([+0][\d ()-]{7,}\d)/iu;

/** 'New job: Ketterby 500 single, owner Mrs Dale, came with two boxes', 'working on the Ketterby'. */
export function readJobInstruction(text: string, { known }: Hearer): Instruction | null {
  const opening =
    /^(?:new (?:job|machine|bike)|open (?:a )?(?:new )?job|job in):? (?:for |on )?(?:an? |the )?(.+)$/i.exec(
      text,
    );
  if (opening) return readOpening(opening[1] ?? '');
  const bench =
    /^(?:(?:right,? |ok,? )?(?:i'm |we're |now )?(?:(?:working|starting|moving|going|get) (?:back )?(?:on|onto|on to)|on to|onto|back on|back to|back onto|over to|switch(?:ing)? to|now on) |(?:put|get) )?(?:to )?(?:the )?(.{2,40}?)(?:'s| is| goes)?(?: back)?(?: on| up)?(?:(?: on(?:to)?)? the (?:bench|stand|ramp))?(?: please| now| next)?$/i.exec(
      text,
    );
  const named = bench?.[1] ?? '';
  const spoken = text.toLowerCase() !== named.toLowerCase();
  const isKnown = known.machines.some(({ name }) => sameName(name, named));
  return isKnown || (spoken && /on(?:to)? the bench$/i.test(text))
    ? { kind: 'put-on-bench', machine: named }
    : null;
}

function sameName(name: string, said: string): boolean {
  return name.toLowerCase() === said.toLowerCase();
}

function readOpening(about: string): Instruction {
  const pieces = about.split(/[,;.] ?/);
  const title = titleOf(pieces[0] ?? about);
  const owner =
    /\b(?:owner|owned by|belongs to|belonging to|customer)(?: is|:)? ((?:(?:mr|mrs|ms|miss|dr)\.? )?[\p{L}'-]+(?: \p{Lu}[\p{L}'-]+)*)/iu.exec(
      about,
    );
  const twin = /\b(?:twin|unit[- ]construction|unit construction)\b/i.test(about);
  const single = /\bsingle\b/i.test(about);
  return {
    kind: 'open-job',
    title,
    template: twin ? 'twin' : single ? 'single' : null,
    owner: owner?.[1] ?? null,
    phone: OWNERS_PHONE.exec(about)?.[1] ?? null,
    about,
    passed: passedBefore(about),
  };
}

/** The machine's name: the words before its size, year or kind. */
function titleOf(piece: string): string {
  const words = piece.trim().split(' ');
  const end = words.findIndex(
    (word, index) =>
      index > 0 && (/^\d/.test(word) || /^(?:single|twin|unit|for|from|owner|already)$/i.test(word)),
  );
  const title = words.slice(0, end === -1 ? 3 : end).join(' ');
  return title.charAt(0).toUpperCase() + title.slice(1);
}

/** 'Already stripped and inspected' takes those gates, and those before them, as passed. */
function passedBefore(about: string): Gate[] {
  const already = /\balready (.+)/i.exec(about)?.[1];
  if (already === undefined) return [];
  const pieces = already.split(/,? and |,? & |[,;.] ?/).map(gateNamed);
  const end = pieces.indexOf(null);
  const named = pieces.slice(0, end < 0 ? undefined : end).filter((gate) => gate !== null);
  const last = Math.max(-1, ...named.map((gate) => GATES.indexOf(gate)));
  return GATES.slice(0, last + 1);
}
