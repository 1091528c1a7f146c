/** A copy of an object without some of its fields. */
export function without<T extends object, K extends keyof T>(value: T, ...fields: K[]): Omit<T, K> {
  const left = Object.entries(value).filter(([field]) => !fields.some((other) => other === field));
  return Object.fromEntries(left) as Omit<T, K>;
}
