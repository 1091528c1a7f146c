/** The value below which a share of the values lies: nearest rank. */
export function percentile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? NaN;
}

export const median = (values: readonly number[]): number => percentile(values, 0.5);

export type Figure = { what: string; ours: number; baseline: number; unit: string; atMost: number };

/** Prints figures beside what they are held against, with their ratio and what it should be at most. */
export function printTable(heading: string, baseline: string, figures: readonly Figure[]): void {
  console.log(`${heading}\nagainst ${baseline}`);
  const width = Math.max(...figures.map(({ what }) => what.length));
  const number = (value: number): string => value.toFixed(value < 10 ? 2 : value < 100 ? 1 : 0).padStart(8);
  for (const { what, ours, baseline: other, unit, atMost } of figures) {
    const ratio = ours / other;
    const verdict = ratio <= atMost ? 'within' : 'beyond';
    console.log(
      `  ${what.padEnd(width)} ${number(ours)} ${unit}  against ${number(other)} ${unit}  ratio ${ratio.toFixed(2)}  ${verdict} ${atMost}`,
    );
  }
}

/** How long something takes, in ms. */
export async function timed(run: () => Promise<unknown>): Promise<number> {
  const began = performance.now();
  await run();
  return performance.now() - began;
}
