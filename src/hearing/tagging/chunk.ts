import type { Cost, Outcome, QuestionTopic } from '../reading.js';
import type { Condition, Place, Process, Quantity, Remedy } from '../../trade/terms.js';
import type { Doer } from '../../trade/lexicon/phrases.js';
import type { Act } from '../reading.js';

/** Something of meaning found in a message: tokens `from` up to, not including, `to`. */
export type Chunk = Span & Meaning;

export type Span = {
  from: number;
  to: number;
  /** What the same words may mean as well, where the sentence asks for it. */
  or?: Meaning[];
};

export type PartMeaning = {
  kind: 'part';
  part: string;
  /** The words it was called by, run together, in the singular. */
  said: string;
  /** Said in the plural. */
  plural: boolean;
  /** How many there are when someone says "both" or "the set". */
  set?: number;
  sides: readonly Place[];
  within: readonly string[];
  quantities: readonly Quantity[];
  /** Places that the name itself holds ("rear sprocket"). */
  places: readonly Place[];
  /** False for a name guessed by sound, or a word that no lexicon has. */
  sure: boolean;
};

export type Meaning =
  | PartMeaning
  | { kind: 'place'; place: Place }
  | { kind: 'condition'; condition: Condition }
  | { kind: 'remedy'; remedy: Remedy }
  | { kind: 'process'; process: Process; doer: Doer }
  | { kind: 'act'; act: Act; outcome: Outcome | null }
  /** `speaks`: is the subject of saying; `held`: "at", "with" whom the thing is. */
  | { kind: 'supplier'; supplier: string; known: boolean; speaks: boolean; held?: boolean }
  | { kind: 'owner'; owner: string }
  | { kind: 'machine'; machine: string }
  | { kind: 'stored'; stored: string }
  /** `of`: so many of a larger number. */
  | { kind: 'count'; count: number; both: boolean; of: boolean }
  | { kind: 'money'; cost: Cost; pieces: number | null; together: boolean; sure: boolean }
  | { kind: 'measure'; value: number; unit: string; quantity: Quantity | null }
  | { kind: 'quantity'; quantity: Quantity }
  | { kind: 'date'; date: string; sure: boolean; by: boolean }
  | { kind: 'item'; item: number }
  | { kind: 'topic'; topic: QuestionTopic }
  | { kind: 'denial' }
  | { kind: 'correction' }
  | { kind: 'pronoun'; refers: 'last' | 'all' | 'other' | 'same' }
  | { kind: 'also' }
  | { kind: 'aside' }
  | { kind: 'break'; strength: 'comma' | 'full' }
  | { kind: 'and' }
  | { kind: 'of' }
  | { kind: 'article'; definite: boolean }
  | { kind: 'copula' }
  | { kind: 'word'; word: string };

export type ChunkOf<K extends Meaning['kind']> = Extract<Chunk, { kind: K }>;

export const isKind =
  <K extends Meaning['kind']>(...kinds: K[]) =>
  (chunk: Chunk | undefined): chunk is ChunkOf<K> =>
    chunk !== undefined && (kinds as string[]).includes(chunk.kind);
