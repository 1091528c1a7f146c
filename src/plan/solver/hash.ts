/** A number for a sequence of whole numbers, 53 bits of it: equal ones get the same, others hardly ever do (FNV-1a, doubled). */
export function hashOf(values: Int32Array, start: number): number {
  let low = 0x811c9dc5 ^ start;
  let high = 0x9e3779b9 ^ start;
  for (let k = 0; k < values.length; k += 1) {
    const value = values[k] as number;
    low = Math.imul(low ^ value, 0x01000193);
    high = (Math.imul(high ^ value, 0x85ebca6b) + k) | 0;
  }
  return (low >>> 0) * 2_097_152 + (high >>> 11);
}
