/**
 * The figures and dates of a document's text, and what the records of its job have to explain them. Written apart from the program's
 * formats: plain arithmetic and Intl. Factors to SI: NIST SP 811, Appendix B.8.
 */
const WITH_UNITS = ['money', 'percent', 'length', 'area', 'liquid', 'mass', 'temperature', 'difference', 'pressure', 'duration'] as const;
const DIMENSIONS = [...WITH_UNITS, 'bags', 'count', 'plain'] as const;
type Dimension = (typeof DIMENSIONS)[number];
/** A figure as printed, its value in the unit of its dimension below, and half of its last place. */
export type Figure = {
  readonly dimension: Dimension | 'date' | 'moment' | 'time';
  readonly text: string;
  readonly value: number;
  readonly slack: number;
};

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

const DATE = '(?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)[a-z]* \\d{1,2}(?:, \\d{4})?';
const TIME = '(?:\\d{1,2}(?::\\d\\d)? [ap]m|noon|midnight)(?![\\p{L}])';
const SECONDS: Readonly<Record<string, number>> = {
  s: 1,
  second: 1,
  min: 60,
  minute: 60,
  h: 3600,
  hour: 3600,
  day: 86_400,
  week: 604_800,
  month: 2_629_800,
  year: 31_557_600,
};
const LASTING = 's|seconds?|min|minutes?|h|hours?|days?|weeks?|months?|years?';

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
    dimension: 'moment',
    pattern: new RegExp(`(?<![\\p{L}])(${DATE},? ${TIME})`, 'gu'),
    read: () => ({ value: 0, slack: 0 }),
  },
  { dimension: 'time', pattern: new RegExp(`(?<![\\d:])(${TIME})`, 'gu'), read: () => ({ value: 0, slack: 0 }) },
  {
    dimension: 'date',
    pattern: new RegExp(`(?<![\\p{L}])(${DATE})(?!\\d)`, 'gu'),
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
  {
    dimension: 'duration',
    pattern: new RegExp(`((?:(\\d+) h )?(\\d[\\d,]*(?:\\.\\d+)?) (${LASTING})(?![\\p{L}]))`, 'gu'),
    read: (text) => {
      const parts = [...text.matchAll(/([\d,.]+) ([a-z]+)/gu)].map(([, number = '', word = '']) => {
        const seconds = SECONDS[word] ?? SECONDS[word.replace(/s$/, '')] ?? 0;
        return { seconds: plain(number) * seconds, place: lastPlace(number) * seconds };
      });
      return { value: parts.reduce((sum, part) => sum + part.seconds, 0), slack: (parts.at(-1)?.place ?? 0) * 0.51 };
    },
  },
  unit('length', 'ft', 12),
  unit('length', 'in\\.(?= |$)'),
  unit('area', 'sq ft'),
  unit('liquid', 'gallons?|gal', 4),
  unit('liquid', 'qt'),
  unit('mass', 'lb'),
  unit('temperature', '°F'),
  unit('pressure', 'psi'),
  unit('pressure', 'psf', 1 / 144),
  unit('bags', 'bags?'),
  unit('count', 'batch(?:es)?|readings?|air readings|prep lines|helpers?|coats?|places|openings?|high spots|rooms'),
  // What is left: counts, quantities and numbers without a unit.
  {
    dimension: 'plain',
    pattern: /(?<![\p{L}\d.,:/-])((?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?)(?![\p{L}\d/]|[-.,:]\d)/gu,
    read: (_, number) => ({ value: plain(number), slack: lastPlace(number) * 0.51 }),
  },
];

/** Numbers of laws, standards and tables; `page 2 of 4`, which the checks of structure count; data for a web address or a drill. */
const CITED =
  /\d+ CFR (?:part )?\d[\d.]*(?:\([a-z0-9]+\))*(?:,? (?:and |subpart )?\.?[\dA-Z][\d.]*(?:\([a-z0-9]+\))*)*|(?:ASTM|ISO|ANSI|IRC|NIOSH) [A-Z]?[\d.-]+(?: clause [\d.]+)?|Table \d+|page \d+ of \d+|pages \d+ to \d+/gu;

/** Every figure and date of a text. */
export function figuresOf(text: string): readonly Figure[] {
  // `20 to 25 min` is two durations, `9 am to 3 pm` two times as it stands.
  let rest = text
    .replace(CITED, '#')
    .replace(new RegExp(`(\\d) to (\\d[\\d.,]*) (${LASTING}|°F|sq ft)(?![\\p{L}])`, 'gu'), '$1 $3 to $2 $3');
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
  [/(?:Min|Minutes|^minutes)$/, 'duration', (v) => v * 60],
  [/(?:[a-z]H|Hours|hours)$/, 'duration', (v) => v * 3600],
  [/(?:[a-z]S|Seconds|seconds)$/, 'duration', (v) => v],
  [/(?:Ms)$/, 'duration', (v) => v / 1000],
  [/(?:Days|days)$/, 'duration', (v) => v * 86_400],
  [/(?:Months)$/, 'duration', (v) => v * 2_629_800],
  [/(?:Years)$/, 'duration', (v) => v * 31_557_600],
  [/^(?:batch|lane|number|seq|revision|serial|ph|lift|bags|yearInstalled|yearBuilt)$/, 'plain', (v) => v],
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
const SKIPPED = new Set(['xy', 'surface', 'triangles', 'grid', 'samples', 'curve', 'residuals']);
const MOST_IN_LIST = 400;

export type Known = {
  readonly numbers: Readonly<Record<Dimension, number[]>>;
  readonly days: Set<string>;
  readonly moments: Set<string>;
  readonly strings: Set<string>;
};

/** A text that stands for itself: words, a number of a document, a check or a lot, a phone number. `2 bags` is a figure to be checked. */
const isName = (text: string): boolean =>
  (text.match(/\p{L}/gu) ?? []).length >= 8 || /^(?=.*[\p{L}-])[\p{L}\d-]+$/u.test(text) || /^\d{3} \d{4}$|^\d{3,4}$/.test(text);

/** The day of an instant in a time zone, `YYYY-MM-DD`. */
export const dayIn = (instant: string, zone: string): string =>
  new Intl.DateTimeFormat('en-CA', { timeZone: zone, dateStyle: 'short' }).format(new Date(instant));

/** The minute of an instant in a time zone, `YYYY-MM-DD HH:MM`. */
export const momentIn = (instant: string, zone: string): string =>
  `${dayIn(instant, zone)} ${new Intl.DateTimeFormat('en-GB', { timeZone: zone, hour: '2-digit', minute: '2-digit' }).format(new Date(instant))}`;

/** A printed time of day as `HH:MM`. */
export function clockOf(text: string): string {
  if (/noon|midnight/.test(text)) return text.includes('noon') ? '12:00' : '00:00';
  const [, hour = '0', minute = '00', half = ''] = /(\d{1,2})(?::(\d\d))? ([ap]m)/.exec(text) ?? [];
  return `${String((Number(hour) % 12) + (half === 'pm' ? 12 : 0)).padStart(2, '0')}:${minute}`;
}

/** Every number with a unit, every day and every text with digits under a value, by walking it. */
export function knownIn(roots: readonly unknown[], zone: string): Known {
  const numbers = Object.fromEntries(DIMENSIONS.map((one) => [one, [] as number[]])) as Record<Dimension, number[]>;
  const [days, moments, strings, seen] = [new Set<string>(), new Set<string>(), new Set<string>(), new Set<object>()];
  const number = (key: string, value: number): void => {
    for (const [pattern, dimension, of] of SUFFIXES) if (pattern.test(key)) numbers[dimension].push(of(value));
  };
  const text = (value: string): void => {
    if (/^\d{4}-\d\d-\d\dT/.test(value)) {
      days.add(dayIn(value, zone));
      moments.add(momentIn(value, zone));
    } else if (/^\d{4}-\d\d-\d\d$/.test(value)) days.add(value);
    else if (/^\d\d:\d\d$/.test(value)) moments.add(`each day ${value}`);
    else if (/\d/.test(value) && value.length < 300 && isName(value)) strings.add(value.replace(/\s+/g, ' ').trim());
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
    if (amount !== undefined && typeof record['holds'] === 'number') numbers[amount[0]].push(amount[1](record['holds']));
    // A figure with its source, `{value: 22.68, source: 'bag'}`, has the name of what holds it.
    for (const [name, inner] of Object.entries(record)) walk(/^(?:value|least|most|usual|mean)$/.test(name) ? key : name, inner);
  };
  for (const root of roots) walk('', root);
  return { numbers, days, moments, strings };
}

/** The day a printed date names, once for each year it may be of. */
export function daysOf(text: string, years: readonly number[]): string[] {
  const [, month = '', day = '', year] = /^([A-Z][a-z]{2})[a-z]* (\d{1,2})(?:, (\d{4}))?$/.exec(text) ?? [];
  const at = String(MONTHS.indexOf(month.toLowerCase()) + 1).padStart(2, '0');
  return (year === undefined ? years : [Number(year)]).map((y) => `${y}-${at}-${day.padStart(2, '0')}`);
}

/** The hour at which dates moved to the next morning begin. */
const MORNING = '08:00';
const HOUR_MS = 3_600_000;

/** A minute of the records; of an expected date, which has no year, the nearest hour or the next morning. */
function isMoment(moment: string, isExact: boolean, { moments }: Known): boolean {
  if (moments.has(moment)) return true;
  if (isExact || !moment.endsWith(':00')) return false;
  const at = (text: string): number => Date.parse(`${text.replace(' ', 'T')}:00Z`);
  const before = moment.endsWith(MORNING) ? 16 * HOUR_MS : HOUR_MS;
  return [...moments].some((one) => at(moment) - at(one) < before && at(one) - at(moment) < HOUR_MS);
}

/** Whether the records explain a figure. */
export function isKnown(figure: Figure, known: Known, years: readonly number[]): boolean {
  if (figure.dimension === 'date') return daysOf(figure.text, years).some((day) => known.days.has(day));
  if (figure.dimension === 'time') return [...known.moments].some((moment) => moment.endsWith(clockOf(figure.text)));
  if (figure.dimension === 'moment')
    return daysOf(/[A-Z][a-z]+ \d{1,2}(?:, \d{4})?/.exec(figure.text)?.[0] ?? '', years).some((day) =>
      isMoment(`${day} ${clockOf(figure.text)}`, / \d{4},/.test(figure.text), known),
    );
  const near = (candidates: readonly number[]): boolean => candidates.some((c) => Math.abs(c - figure.value) <= figure.slack + 1e-6);
  if (figure.dimension === 'money') return near(known.numbers.money) || known.numbers.money.includes(-figure.value);
  if (figure.dimension === 'temperature') return near(known.numbers.temperature) || near(known.numbers.difference);
  if (figure.dimension === 'plain') return [known.numbers.plain, known.numbers.count, known.numbers.bags].some(near);
  return near(known.numbers[figure.dimension]);
}
