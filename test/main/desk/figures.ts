/**
 * The figures and dates of a document's text, and what the records of its job have to explain them. Written apart from the program's
 * formats: plain arithmetic and Intl. Factors to SI: NIST SP 811, Appendix B.8.
 */
type Dimension = 'money' | 'percent' | 'length' | 'area' | 'liquid' | 'mass' | 'temperature' | 'difference' | 'pressure' | 'bags' | 'count';
/** A figure as printed, its value in the unit of its dimension below, and half of its last place. */
export type Figure = { readonly dimension: Dimension | 'date'; readonly text: string; readonly value: number; readonly slack: number };

/** Money in cents, lengths in inches, areas in sq ft, liquids in US quarts, masses in lb, temperatures in °F, pressures in psi. */
const FROM_SI = {
  inch: (m: number) => m / 0.0254,
  squareFoot: (m2: number) => m2 / 0.3048 ** 2,
  quart: (l: number) => l / 0.9463529,
  pound: (kg: number) => kg / 0.45359237,
  fahrenheit: (c: number) => c * 1.8 + 32,
  psi: (pa: number) => pa / 6894.757,
} as const;

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const SINGLE: Readonly<Record<string, number>> = { '¼': 1 / 4, '½': 1 / 2, '¾': 3 / 4, '⅛': 1 / 8, '⅜': 3 / 8, '⅝': 5 / 8, '⅞': 7 / 8 };
const SUPER = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const SUB = '₀₁₂₃₄₅₆₇₈₉';
const FRACTION = `(?:[¼½¾⅛⅜⅝⅞]|[${SUPER}]+⁄[${SUB}]+|(?:1[0-5]|[1-9])⁄(?:16|8|4|2))`;

const digits = (text: string): number =>
  Number([...text].map((c) => (SUPER.includes(c) ? SUPER.indexOf(c) : SUB.includes(c) ? SUB.indexOf(c) : c)).join(''));
function fractionOf(text: string): number {
  const single = SINGLE[text];
  if (single !== undefined) return single;
  const [over = '0', under = '1'] = text.split('⁄');
  return digits(over) / digits(under);
}
const plain = (text: string): number => Number(text.replaceAll(',', ''));
const lastPlace = (text: string): number => 10 ** -(text.split('.')[1]?.length ?? 0);

/** A length as feet and inches, to the sixteenth. */
function inchesOf(text: string): number {
  const feet = /(\d+)′/u.exec(text)?.[1] ?? '0';
  const inches = new RegExp(`^(\\d*?)(${FRACTION})?″`, 'u').exec(text.replace(/^\d+′ ?/u, ''));
  return (
    plain(feet) * 12 + plain(inches?.[1] === '' ? '0' : (inches?.[1] ?? '0')) + (inches?.[2] === undefined ? 0 : fractionOf(inches[2]))
  );
}

type Reader = {
  readonly dimension: Figure['dimension'];
  readonly pattern: RegExp;
  readonly read: (text: string, number: string) => Pick<Figure, 'value' | 'slack'>;
};
const unit = (dimension: Dimension, words: string, times = 1): Reader => ({
  dimension,
  pattern: new RegExp(`(\\d[\\d,]*(?:\\.\\d+)?) (?:${words})(?![\\p{L}])`, 'gu'),
  read: (_, number) => ({ value: plain(number) * times, slack: lastPlace(number) * times }),
});
/** In this order: what one takes is not there for the next. */
const READERS: readonly Reader[] = [
  {
    dimension: 'money',
    pattern: /-?\$([\d,]+\.\d\d)/gu,
    read: (text, number) => ({ value: Math.round(plain(number) * 100) * (text.startsWith('-') ? -1 : 1), slack: 0 }),
  },
  {
    dimension: 'date',
    pattern: /(?<![\p{L}])((?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)[a-z]* \d{1,2}(?:, \d{4})?)(?!\d)/gu,
    read: () => ({ value: 0, slack: 0 }),
  },
  { dimension: 'percent', pattern: /(\d+(?:\.\d+)?)%/gu, read: (_, number) => ({ value: plain(number), slack: lastPlace(number) * 0.51 }) },
  {
    dimension: 'length',
    pattern: new RegExp(`((?:\\d+′ ?)?(?:${FRACTION}|\\d+?${FRACTION}|\\d+)″|\\d+′)`, 'gu'),
    read: (text) => ({
      value: inchesOf(text),
      slack: !text.includes('′') || text.includes('⁄') || /[¼½¾⅛⅜⅝⅞]/u.test(text) ? 1 / 16 : 0.51,
    }),
  },
  unit('area', 'sq ft'),
  unit('liquid', 'gallons?|gal', 4),
  unit('liquid', 'qt'),
  unit('mass', 'lb'),
  unit('temperature', '°F'),
  unit('pressure', 'psi'),
  unit('pressure', 'psf', 1 / 144),
  unit('bags', 'bags?'),
  unit('count', 'batch(?:es)?|readings?|air readings|prep lines|helpers?|coats?|places|openings?|high spots|rooms'),
];

/** Every figure and date of a text. */
export function figuresOf(text: string): readonly Figure[] {
  let rest = text;
  return READERS.flatMap(({ dimension, pattern, read }) => {
    const found = [...rest.matchAll(pattern)].map((match): Figure => ({ dimension, text: match[0], ...read(match[0], match[1] ?? '') }));
    rest = rest.replace(pattern, '#');
    return found;
  });
}

/** What a name ends with tells its unit. */
const SUFFIXES: readonly (readonly [RegExp, Dimension, (value: number) => number])[] = [
  [/(?:Minor|^minor)$/, 'money', (v) => v],
  [/(?:^|[a-z0-9])M2$/, 'area', FROM_SI.squareFoot],
  [/(?:[a-z0-9]|^[xyz])M$/, 'length', FROM_SI.inch],
  [/(?:[a-z]L|^liters)$/, 'liquid', FROM_SI.quart],
  [/Kg$/, 'mass', FROM_SI.pound],
  [/(?:TempC|[a-z]C)$/, 'temperature', FROM_SI.fahrenheit],
  [/K$/, 'difference', (v) => v * 1.8],
  [/Pa$/, 'pressure', FROM_SI.psi],
  [/(?:bags|bag)/i, 'bags', (v) => v],
  [/(?:share|humidity|rate)$/i, 'percent', (v) => v * 100],
  [/(?:count|coats|containers|mixers|carriers|spreaders|helpers|lifts)$/i, 'count', (v) => v],
];
/** Amounts that carry their unit beside them. */
const UNITS: Readonly<Record<string, readonly [Dimension, (value: number) => number]>> = {
  m: ['length', FROM_SI.inch],
  m2: ['area', FROM_SI.squareFoot],
  L: ['liquid', FROM_SI.quart],
  kg: ['mass', FROM_SI.pound],
  bag: ['bags', (v) => v],
  helper: ['count', (v) => v],
};
/** Geometry and surfaces have so many numbers that any figure would be among them. */
const SKIPPED = new Set(['xy', 'surface', 'triangles', 'grid', 'content', 'samples', 'curve', 'residuals']);
const MOST_IN_LIST = 400;

export type Known = { readonly numbers: Readonly<Record<Dimension, number[]>>; readonly days: Set<string>; readonly strings: Set<string> };

/** The day of an instant in a time zone, `YYYY-MM-DD`. */
export const dayIn = (instant: string, zone: string): string =>
  new Intl.DateTimeFormat('en-CA', { timeZone: zone, dateStyle: 'short' }).format(new Date(instant));

/** Every number with a unit, every day and every text with digits under a value, by walking it. */
export function knownIn(roots: readonly unknown[], zone: string): Known {
  const numbers: Record<Dimension, number[]> = {
    money: [],
    percent: [],
    length: [],
    area: [],
    liquid: [],
    mass: [],
    temperature: [],
    difference: [],
    pressure: [],
    bags: [],
    count: [],
  };
  const [days, strings, seen] = [new Set<string>(), new Set<string>(), new Set<object>()];
  const number = (key: string, value: number): void => {
    const suffix = SUFFIXES.find(([pattern]) => pattern.test(key));
    if (suffix !== undefined) numbers[suffix[1]].push(suffix[2](value));
  };
  const text = (value: string): void => {
    if (/^\d{4}-\d\d-\d\dT/.test(value)) days.add(dayIn(value, zone));
    else if (/^\d{4}-\d\d-\d\d$/.test(value)) days.add(value);
    else if (/\d/.test(value) && value.length < 300) strings.add(value.replace(/\s+/g, ' ').trim());
  };
  const walk = (key: string, value: unknown): void => {
    if (typeof value === 'number') return number(key, value);
    if (typeof value === 'string') return text(value);
    if (typeof value !== 'object' || value === null || seen.has(value) || SKIPPED.has(key)) return;
    seen.add(value);
    if (Array.isArray(value)) {
      numbers.count.push(value.length);
      if (value.length <= MOST_IN_LIST) for (const one of value) walk(key, one);
      return;
    }
    if (value instanceof Map || value instanceof Set) return walk(key, [...value.values()]);
    const record = value as Readonly<Record<string, unknown>>;
    const amount = UNITS[String(record['unit'])];
    if (amount !== undefined && typeof record['value'] === 'number') numbers[amount[0]].push(amount[1](record['value']));
    // A figure with its source, `{value: 22.68, source: 'bag'}`, has the name of what holds it.
    for (const [name, inner] of Object.entries(record)) walk(/^(?:value|least|most|usual|mean)$/.test(name) ? key : name, inner);
  };
  for (const root of roots) walk('', root);
  return { numbers, days, strings };
}

/** The day a printed date names, once for each year it may be of. */
export function daysOf(text: string, years: readonly number[]): string[] {
  const [, month = '', day = '', year] = /^([A-Z][a-z]{2})[a-z]* (\d{1,2})(?:, (\d{4}))?$/.exec(text) ?? [];
  const at = String(MONTHS.indexOf(month.toLowerCase()) + 1).padStart(2, '0');
  return (year === undefined ? years : [Number(year)]).map((y) => `${y}-${at}-${day.padStart(2, '0')}`);
}

/** Whether the records explain a figure. */
export function isKnown(figure: Figure, known: Known, years: readonly number[]): boolean {
  if (figure.dimension === 'date') return daysOf(figure.text, years).some((day) => known.days.has(day));
  const near = (candidates: readonly number[]): boolean => candidates.some((c) => Math.abs(c - figure.value) <= figure.slack + 1e-6);
  if (figure.dimension === 'money') return near(known.numbers.money) || known.numbers.money.includes(-figure.value);
  if (figure.dimension === 'temperature') return near(known.numbers.temperature) || near(known.numbers.difference);
  return near(known.numbers[figure.dimension]);
}
