import type { Chunk, ChunkOf } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { newClause, type Clause } from './clause-state.js';

type Test = ChunkOf<'act'>;

const isTest = (chunk: Chunk): chunk is Test => chunk.kind === 'act' && chunk.act === 'tested';

/** Words of a ride: what is tested then is the machine, whatever is found on the way. */
const RIDE =
  /^(road|rd|ride|rode|ridden|block|lane|lanes|loop|mile|miles|spin|shakedown|her|him|out|up|down|over|round|took|gave|run|road-test|road-tested)$/;

const isRide = (chunk: Chunk, tokens: readonly Token[]): boolean =>
  isTest(chunk) &&
  chunk.outcome === null &&
  tokens.slice(chunk.from, chunk.to).some(({ word }) => RIDE.test(word)) &&
  !/^(bench|rig|growler)$/.test(tokens[chunk.to - 1]?.word ?? '');

/** A result said as one, where "weaves" only shows it. */
const SAID = /^(pass|passed|passes|fail|fails|failed)$/;

const isFault = (chunk: Chunk): boolean => chunk.kind === 'condition' && chunk.condition !== 'good';

const stopBetween = (tokens: readonly Token[], from: number, to: number): boolean =>
  tokens.slice(from, to).some(({ text }) => /^[.!;]$/.test(text));

/** What a thing is told of in the words of a test ("clutch slipping"): the fault that they mean elsewhere, if any. */
const asFault = (chunk: Test): Chunk[] => {
  const other = chunk.or?.find((meaning) => meaning.kind === 'condition');
  return other === undefined ? [] : [{ from: chunk.from, to: chunk.to, ...other }];
};

/**
 * "Had it round the block and the drum's oval": the ride is one thing told, what was found on it another. A result that
 * follows the thing in one sentence ("clutch slips, fail") stays with the thing.
 */
export function ridesApart(clauses: readonly Clause[], tokens: readonly Token[]): Clause[] {
  const out: Clause[] = [];
  let open: { test: Clause; stopped: boolean; alone: boolean } | null = null;
  for (const clause of clauses) {
    // "pulls grand off the bottom": a place of the road or the engine's pull, no thing.
    const first = clause.mentions.find(({ part, item }) => part !== null || item !== null);
    const ride = clause.said.find((chunk) => isRide(chunk, tokens));
    const told = clause.said.some((chunk) => isFault(chunk) || (isTest(chunk) && chunk.outcome !== null));
    if (ride === undefined && open !== null && first !== undefined) {
      out.push(open.stopped ? resultGiven(clause, open.test) : clause);
      if (open.alone) judged(open.test, out.at(-1), tokens);
      continue;
    }
    if (ride !== undefined && first === undefined) {
      const test = { ...clause, mentions: [], said: [...clause.said] };
      out.push(test);
      open = { test, stopped: true, alone: true };
      continue;
    }
    if (ride === undefined || first === undefined || ride.to > first.from || !told) {
      open = null;
      out.push(clause);
      continue;
    }
    const stopped = stopBetween(tokens, ride.to, first.from);
    const results = clause.said.filter((chunk) => isTest(chunk) && chunk.outcome !== null);
    const before = results.filter((chunk) => chunk.to <= first.from);
    const said = results.some((chunk) => isSaid(chunk, tokens));
    if (!stopped && before.length === 0 && results.length > 0 && (said || !clause.said.some(isFault))) {
      out.push(clause);
      continue;
    }
    const test: Clause = { ...newClause(), said: [ride, ...before] };
    const found = {
      ...clause,
      said: clause.said.filter((chunk) => chunk !== ride && !before.includes(chunk)),
    };
    found.fore = Math.max(0, clause.fore - 1 - before.length);
    out.push(test, resultGiven(found, test));
    judged(test, found, tokens);
    open = { test, stopped, alone: false };
  }
  return out;
}

/** Whether a result is said as one. */
const isSaid = (chunk: Chunk, tokens: readonly Token[]): boolean =>
  tokens.slice(chunk.from, chunk.to).some(({ word }) => SAID.test(word));

/** A fault found on a ride that nobody called a pass: the ride failed, however well it pulled. */
function judged(test: Clause, found: Clause | undefined, tokens: readonly Token[]): void {
  const results = test.said.filter((chunk): chunk is Test => isTest(chunk) && chunk.outcome !== null);
  const faulty =
    found?.said.some(isFault) === true && found.said.every((chunk) => chunk.kind !== 'act' || isTest(chunk));
  if (!faulty || results.some((chunk) => isSaid(chunk, tokens))) return;
  const ride = test.said.find(isTest);
  if (ride !== undefined) test.said.push({ ...ride, outcome: 'fail' });
}

/** The result that was told with a thing goes to the test. */
function resultGiven(clause: Clause, test: Clause): Clause {
  const given = clause.said.filter(isTest);
  test.said.push(...given.filter(({ outcome }) => outcome !== null));
  return { ...clause, said: clause.said.flatMap((chunk) => (isTest(chunk) ? asFault(chunk) : [chunk])) };
}
