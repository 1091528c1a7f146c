import type { Token } from '../text/tokens.js';

/** Words that a recogniser writes for a trade word where the word before or after gives it away. */
type Slip = { heard: RegExp; put: string; after?: RegExp; before?: RegExp; afterNumber?: boolean };

const SLIPS: Slip[] = [
  {
    heard: /^(though|foul|vow|thow|fow|thao|vows|fouls|thaw|fowl|thous|vowel)$/,
    put: 'thou',
    afterNumber: true,
  },
  { heard: /^(mill|mils|meal)$/, put: 'mm', afterNumber: true },
  { heard: /^(squid|quit|quids|squib|quip)$/, put: 'quid', afterNumber: true },
  {
    heard: /^(warn|warned|morn)$/,
    put: 'worn',
    before: /^(out|and|through|away|thin|but)$/,
    after:
      /^(is|are|'s|'re|badly|bit|well|very|quite|both|all|tap|bush|bearing|bushes|bearings|cam|lobe|guides|shoes|sprocket)$/,
  },
  { heard: /^(sink|sync|think|zink)$/, put: 'zinc', before: /^(plate|plated|plating|and|plates)$/ },
  {
    heard: /^(crown|crone|groom|krone|chromed|chrome)$/,
    put: 'chrome',
    before: /^(plate|plated|plating)$/,
  },
  {
    heard: /^(sees|seas|cease|ceased|seize|seizes|cedes|siege)$/,
    put: 'seized',
    before: /^(up|solid|on|in)$/,
    after: /^(is|are|'s|'re|was|were|been)$/,
  },
  {
    heard: /^(lose|lews|loos)$/,
    put: 'loose',
    after: /^(is|are|'s|'re|bit|very|all|too|quite|was|came|come|coming|getting)$/,
  },
  {
    heard: /^(pity|pitied|petted|pittered|bitted)$/,
    put: 'pitted',
    after: /^(badly|heavily|lightly|deeply|is|are|'s|all|bit)$/,
  },
  { heard: /^(crome|krome|chrom)$/, put: 'chrome' },
  {
    heard: /^(exhausted|exhausts|exorcist|exhort)$/,
    put: 'exhaust',
    before:
      /^(flange|pipe|pipes|valve|valves|gasket|clamp|stub|port|lifter|rocker|cam|collar|nut|nuts|system|side|guide|spring|bracket)$/,
  },
  { heard: /^(crime|chrone|krome)$/, put: 'chrome', after: /^(the|hard|re|show|new|for|in)$/ },
  { heard: /^(joke|yolk)$/, put: 'yoke', after: /^(top|bottom|fork|lower|upper)$/ },
  {
    heard: /^(folks|spooks|strokes)$/,
    put: 'spokes',
    before: /^(on|in|of)$/,
    after: /^(the|all|wheel|new|rusty|\d+)$/,
  },
  { heard: /^(plata|platter|player|playter)$/, put: 'plater', after: /^(the|to|from|my|our)$/ },
  { heard: /^(rebor|reboil|reborn|reboard)$/, put: 'rebore' },
  {
    heard: /^(relying|realigning|realign)$/,
    put: 'relining',
    after: /^(for|need|needs|wants|want|the)$/,
  },
];

/** Puts right single words by their neighbours: "six though" -> "six thou", "sink plating" -> "zinc plating". */
export function smallSlips(tokens: readonly Token[]): Token[] {
  return tokens.map((token, at) => {
    if (token.kind !== 'word') return token;
    const previous = tokens[at - 1];
    const next = tokens[at + 1];
    const slip = SLIPS.find(
      ({ heard, before, after, afterNumber }) =>
        heard.test(token.word) &&
        (afterNumber === true
          ? previous?.kind === 'number' && previous.ordinal !== true
          : (before === undefined && after === undefined) ||
            (before?.test(next?.word ?? '') ?? false) ||
            (after?.test(previous?.word ?? '') ?? false)),
    );
    return slip === undefined || slip.put === token.word
      ? token
      : { ...token, text: slip.put, word: slip.put };
  });
}
