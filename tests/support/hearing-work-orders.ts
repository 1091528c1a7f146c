import { thingSpans } from '../../src/hearing/spans.js';

export type WorkOrder = { tokens: string[]; mentions: { start: number; end: number; labels: string[] }[] };

type Span = { start: number; end: number };

const unique = (spans: readonly Span[]): Span[] => [
  ...new Map(spans.map((span) => [`${span.start}-${span.end}`, span])).values(),
];

/** Token starts in the joined text, so that our spans can be laid beside the gold ones. */
function overlaps(order: WorkOrder, kind: 'things' | 'states'): Span[] {
  const found = thingSpans(order.tokens.join(' '));
  const starts: number[] = [];
  let offset = 0;
  for (const token of order.tokens) {
    starts.push(offset);
    offset += token.length + 1;
  }
  return found[kind].map(({ from, to }) => ({
    start: starts.findLastIndex((start) => start <= from),
    end: starts.findLastIndex((start) => start < to) + 1,
  }));
}

const covers = (found: readonly Span[], gold: Span): boolean =>
  found.some((span) => span.start < gold.end && span.end > gold.start);

/** Of the gold spans of items and of observed states, how many a span of ours touches. */
export function workOrderRecall(orders: readonly WorkOrder[]): {
  items: [number, number];
  states: [number, number];
} {
  const totals: { items: [number, number]; states: [number, number] } = { items: [0, 0], states: [0, 0] };
  for (const order of orders) {
    const [things, states] = [overlaps(order, 'things'), overlaps(order, 'states')];
    const gold = (label: string): Span[] =>
      unique(order.mentions.filter((mention) => mention.labels.includes(label)));
    for (const span of gold('Item')) {
      totals.items[1] += 1;
      if (covers(things, span)) totals.items[0] += 1;
    }
    for (const span of gold('Observation/Observed_state')) {
      totals.states[1] += 1;
      if (covers(states, span)) totals.states[0] += 1;
    }
  }
  return totals;
}
