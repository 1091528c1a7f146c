import { singulars } from '../text/morphology.js';
import { isEveryday } from '../text/ordinary-words.js';
import type { Token } from '../text/tokens.js';
import type { Chunk } from './chunk.js';
import { SHARED } from '../binding/compounds.js';

const OPENS = new Set<Chunk['kind']>([
  'article',
  'place',
  'count',
  'break',
  'and',
  'remedy',
  'act',
  'condition',
  'of',
  'denial',
  'process',
]);
const TELLS = new Set<Chunk['kind']>([
  'condition',
  'remedy',
  'process',
  'act',
  'copula',
  'stored',
  'measure',
  'denial',
  'quantity',
  'date',
  'money',
]);

/** Words that no thing is called by. */
const NEVER =
  /^(i|he|she|we|you|they|it|who|what|which|when|where|why|how|whoever|whatever|somebody|someone|something|anyone|anything|nobody|everyone|everybody|but|so|or|if|because|as|than|very|quite|really|too|just|only|all|both|some|any|more|most|less|few|bit|lot|lots|done|do|did|does|can|could|will|would|should|may|might|must|shall|not|out|up|down|off|back|away|here|there|now|then|today|yesterday|tomorrow|again|still|yet|already|soon|later|never|always|badly|slightly|heavily|lightly|deeply|nearly|almost|about|around|please|thanks|cheers|mate|right|well|ok|yes|no|good|bad|man|bloke|bike|machine|job|day|week|month|morning|afternoon|time|hour|hours|minute|minutes|way|thing|things|stuff|one|ones|side|end|other|same|new|old|next|last|first|second|third|weather|shop|bench|lathe|door|window|heater|van|car|lorry|truck|roof|floor|phone|tea|kettle|money|bill|hand|finger|head|eye|knee|dog|cat|wife|son|lad|boss|that|this|these|those|ready|think|reckon|know|look|looks|see|says|said|got|get|gets|getting|go|goes|going|come|comes|came|put|puts|make|makes|made|take|takes|need|needs|want|wants|let|lets|try|tried|use|used|uses|give|gave|call|called|wait|waiting|work|works|working|help|keep|keeps|turn|turns|turned|seems|feel|feels|is|are|was|were|be|been|has|have|had|with|without|for|from|to|at|in|on|of|by|into|onto|over|under|also|like|apart|together|apparently|probably|maybe|definitely|actually|basically|though|although|until|till|while|since|before|after|during|once|whether|per|each|every|half|another|such|own|much|many|enough|rather|pretty|fairly|completely|totally|absolutely|ages|loads|plenty|oversize|undersize|standard|stainless|steel|brass|ali|alloy|pattern|genuine|original|repro|postie|postman|courier|driver|neighbour|vicar|apprentice|gaffer|set|sets|pair|pairs|kit|spun|ran|run|went|stopped|started|found|left|dry|sweet|lovely|fired|ticks|couple|nice|proper|poor|blooming|bloody|flipping|damn|blimey|throughout|everywhere|whole|sorry|hello|hi|hey|myself|himself|herself|themselves|yourself|ourselves|itself|guy|fella|chap|chaps|inward|inwards|outward|outwards|upward|upwards|downward|downwards|sideways|backwards|forwards|inboard|outboard|straightaway|fault|faults|problem|trouble|issue|charge|question|answer|news|luck|idea|reason|rest|lack|sign|signs|alone|rain|twice|within|herbert|daft|copper|bronze|phosphor|nylon|ptfe|cork|leather|leatherette|vinyl|alumini?um|tin|lead|paper|felt|fibre|plastic|iron|chrome|chromed|clown|badger|badgers|muppet|idiot|monkey|butcher|cowboy|fettle|nick|oven|none|beauty|belter|cracker|corker|shocker|bodger|geezer|bugger|sod|git|pillock|numpty|wazzock|genius|joker|previous|font|year|years|age|life|mile|miles|love|duck|squire|gov|guv|blokes|men|lads|people|folk|kid|kids|wifey|missus|father|dad|uncle|brother|quarter|underneath|beneath|behind|above|below|beside|inside|outside|alongside|nearby|petrol|diesel|paraffin|lateral|radial|axial|ridge|lip|step|stamping|stamp|tub|deposit|balance|paid|payment|cash|invoice|receipt|remainder|parcel|delivery|order|orders|batch|bits|piece|pieces|part|parts)$/;

/** Words of the longest name that is taken for a thing; more in a row are talk. Found on the tuning corpora. */
const LONGEST_NAME = 4;

const isNoun = (chunk: Chunk, tokens: readonly Token[]): boolean => {
  const token = tokens[chunk.from];
  return (
    chunk.kind === 'word' &&
    token?.kind === 'word' &&
    /^[a-z][a-z-]{2,}$/.test(token.text) &&
    !NEVER.test(token.word) &&
    !/(ly|ing|n't)$/.test(token.word)
  );
};

/** A word that the bench is likelier to name than the street: rare, or the common noun of many parts. */
const ofTheBench = (word: string): boolean =>
  singulars(word).some((form) => SHARED.test(form)) || !singulars(word).some(isEveryday);

/** The last chunk of a run of nouns from `at`, parts included after the first word. */
function runEnd(chunks: readonly Chunk[], at: number, tokens: readonly Token[]): number {
  let end = at;
  while (
    chunks[end] !== undefined &&
    (isNoun(chunks[end] as Chunk, tokens) ||
      (chunks[end]?.kind === 'part' && end > at && chunks[end]?.from === chunks[end - 1]?.to))
  )
    end += 1;
  return end;
}

/**
 * Things that no lexicon has, by where they stand: "the gizmo is cracked", "replace deck wrench". Named as said, in the
 * singular, and not sure.
 */
export function unknownThings(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const out: Chunk[] = [];
  for (let at = 0; at < chunks.length; at += 1) {
    const chunk = chunks[at];
    if (chunk === undefined) break;
    const end = isNoun(chunk, tokens) ? runEnd(chunks, at, tokens) : at;
    const last = chunks[end - 1];
    const before = chunks[at - 1];
    const after = chunks[end];
    const opens = before === undefined || OPENS.has(before.kind);
    const object = chunks[end + 1];
    const person =
      after?.kind === 'act' &&
      (after.act === 'agreed' ||
        after.act === 'promised' ||
        object?.kind === 'article' ||
        object?.kind === 'part' ||
        object?.kind === 'place' ||
        object?.kind === 'count' ||
        object?.kind === 'pronoun');
    const told =
      (after !== undefined && TELLS.has(after.kind)) ||
      before?.kind === 'remedy' ||
      before?.kind === 'condition';
    const said = tokens.slice(chunk.from, last?.to ?? chunk.from).map((token) => token.word);
    const head = said.at(-1) ?? '';
    if (
      end === at ||
      end - at > LONGEST_NAME ||
      last === undefined ||
      !opens ||
      !told ||
      person ||
      !(
        ofTheBench(head) ||
        last.kind === 'part' ||
        (end - at > 1 &&
          (before === undefined || /^(article|remedy|place|count|break|and)$/.test(before.kind))) ||
        before?.kind === 'remedy'
      )
    ) {
      out.push(chunk);
      continue;
    }
    const singular = singulars(head)[0] ?? head;
    const name = [...said.slice(0, -1), singular].join(' ');
    out.push({
      kind: 'part',
      from: chunk.from,
      to: last.to,
      part: name,
      said: name,
      plural: singular !== head,
      sides: [],
      within: [],
      quantities: [],
      places: [],
      sure: false,
    });
    at = end - 1;
  }
  return out;
}
