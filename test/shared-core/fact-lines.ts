/** Records of figures as text, for files that a person approves: a line for each, its beginning to be read and a sum of all of it. */

const READ_LETTERS = 170;
/** Six digits: more than any figure is measured to, fewer than the order of a sum can change. */
const figure = (v: number): number | string => (Number.isFinite(v) ? (Math.abs(v) < 1e-9 ? 0 : Number(v.toPrecision(6))) : String(v));

/** The same content without functions, lists of figures by their sum. */
function plain(value: unknown): unknown {
  if (typeof value === 'number') return figure(value);
  if (typeof value === 'function') return undefined;
  if (value === null || typeof value !== 'object') return value;
  if (value instanceof Map) return plain([...value]);
  if (value instanceof Set) return plain([...value]);
  if (ArrayBuffer.isView(value)) return plain([...(value as Float64Array)]);
  if (Array.isArray(value)) {
    if (value.length > 12 && value.every((one) => typeof one === 'number'))
      return `${value.length} figures, sum ${figure(value.reduce((sum: number, one: number) => sum + one, 0))}`;
    return value.map(plain);
  }
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, plain(one)]));
}

/** A number that changes when any letter does. */
export function letterSum(text: string): number {
  let sum = 0;
  for (let i = 0; i < text.length; i += 1) sum = (sum * 31 + text.charCodeAt(i)) % 1_000_000_007;
  return sum;
}

/** `name: {…} #sum` for each; values that are undefined are left out. */
export const factLines = (facts: Readonly<Record<string, unknown>>): readonly string[] =>
  Object.entries(facts).flatMap(([name, value]) => {
    if (value === undefined) return [];
    const text = JSON.stringify(plain(value));
    return [text.length <= READ_LETTERS ? `${name}: ${text}` : `${name}: ${text.slice(0, READ_LETTERS)}… #${letterSum(text)}`];
  });
