/** One case: its features by number, those that are nought left out, and whether it came about. */
export type Case = { features: ReadonlyMap<number, number>; happened: boolean };

const chance = (weights: readonly number[], { features }: Case): number => {
  let sum = 0;
  for (const [index, value] of features) sum += (weights[index] ?? 0) * value;
  return 1 / (1 + Math.exp(-sum));
};

/** Solves `matrix · x = right` for a symmetric, positive definite matrix (Cholesky); `matrix` is overwritten. */
function solve(matrix: Float64Array[], right: readonly number[]): number[] {
  const size = right.length;
  for (let row = 0; row < size; row += 1) {
    const here = matrix[row] as Float64Array;
    for (let column = 0; column <= row; column += 1) {
      const there = matrix[column] as Float64Array;
      let sum = here[column] as number;
      for (let k = 0; k < column; k += 1) sum -= (here[k] as number) * (there[k] as number);
      here[column] = row === column ? Math.sqrt(sum) : sum / (there[column] as number);
    }
  }
  const x = [...right];
  for (let row = 0; row < size; row += 1) {
    for (let k = 0; k < row; k += 1) x[row] = (x[row] ?? 0) - (matrix[row]?.[k] ?? 0) * (x[k] ?? 0);
    x[row] = (x[row] ?? 0) / (matrix[row]?.[row] ?? 1);
  }
  for (let row = size - 1; row >= 0; row -= 1) {
    for (let k = row + 1; k < size; k += 1) x[row] = (x[row] ?? 0) - (matrix[k]?.[row] ?? 0) * (x[k] ?? 0);
    x[row] = (x[row] ?? 0) / (matrix[row]?.[row] ?? 1);
  }
  return x;
}

/**
 * Weights of a logistic regression with a ridge penalty (le Cessie and van Houwelingen, Applied Statistics 41, 1992), by
 * Newton's method. `penalty[i]` is that on the square of weight i. Deterministic.
 */
export function fitLogistic(cases: readonly Case[], penalty: readonly number[], rounds = 12): number[] {
  const size = penalty.length;
  let weights = new Array<number>(size).fill(0);
  for (let round = 0; round < rounds; round += 1) {
    const curve = penalty.map((one, index) => {
      const row = new Float64Array(index + 1);
      row[index] = one;
      return row;
    });
    const slope = penalty.map((one, index) => -one * (weights[index] ?? 0));
    for (const one of cases) {
      const p = chance(weights, one);
      const miss = (one.happened ? 1 : 0) - p;
      const spread = p * (1 - p);
      const entries = [...one.features];
      for (const [i, x] of entries) {
        slope[i] = (slope[i] ?? 0) + miss * x;
        const row = curve[i] as Float64Array;
        for (const [j, y] of entries) if (j <= i) row[j] = (row[j] as number) + spread * x * y;
      }
    }
    const step = solve(curve, slope);
    weights = weights.map((weight, index) => weight + (step[index] ?? 0));
    if (Math.max(...step.map(Math.abs)) < 1e-6) break;
  }
  return weights;
}
