/** Results kept with the object they were calculated from, so that a screen opened again calculates nothing of unchanged records. */
const results = new WeakMap<object, Map<string, unknown>>();

/**
 * Calculates once for each object and name.
 * @param of what it is calculated from, which no code changes
 * @param name identifies the calculation, with every other input
 */
export function calculatedFor<T>(of: object, name: string, calculate: () => T): T {
  const known = results.get(of) ?? new Map<string, unknown>();
  results.set(of, known);
  if (!known.has(name)) known.set(name, calculate());
  return known.get(name) as T;
}
