import { readMessage } from '../../src/hearing/read-message.js';
import { lexicon } from '../../src/trade/lexicon/load.js';

export type JudgedWording = {
  id: number;
  text: string;
  parts: string[];
  conditions: string[];
  mayBeNone: boolean;
};

const canonical = (name: string): string => lexicon.byName(name)?.name ?? name;

/** Whether a reading of the wording names its part, and says of that part what was judged to be said. */
export function judgeWording(wording: JudgedWording): { part: boolean; condition: boolean } {
  const items = readMessage(wording.text, { today: '2026-03-02' }).items;
  const wanted = wording.parts.map(canonical);
  const matching = items.filter((item) =>
    wanted.length === 0 ? item.part === null : item.part !== null && wanted.includes(item.part),
  );
  const part = matching.length > 0 || (wanted.length === 0 && items.length === 0);
  const found = (matching.length > 0 ? matching : items).flatMap((item) => item.conditions);
  const condition =
    found.some((one) => wording.conditions.includes(one)) || (found.length === 0 && wording.mayBeNone);
  return { part, condition };
}
