/** Columns of contacts from another program, matched to the fields of a customer by their headings. */

const PLACE_FIELDS = ['line', 'line2', 'box', 'city', 'region', 'zip', 'country'] as const;
type PlaceField = (typeof PLACE_FIELDS)[number];

export const CONTACT_FIELDS = ['name', 'first', 'last', 'contact', 'company', 'phone', 'email', ...PLACE_FIELDS, 'notes'] as const;
export type ContactField = (typeof CONTACT_FIELDS)[number];
/**
 * The columns of each field, at least one; null for none. Phones and emails are in the order of preference. The fields of an address have
 * one column for each address.
 */
export type ColumnMatch = Readonly<Record<ContactField, readonly (number | null)[]>>;

/** Headings of phonetic names, of labels for the next column, and of names beside an email. */
const NOT_A_VALUE = /phonetic|yomi|pronunciation|furigana|\b(?:label|type)$|\S\s+display name$/i;
const FAX = /fax|pager/i;
const CONTACT = /^(?:primary |main )?contact(?: name| person)?$/i;
/** City, state and ZIP code in one column: `City/State/Zip`. */
const WHOLE_CITY = /\bcity\b.*\b(?:state|st|province|prov|zip|postal)\b/i;

/** Column headings of contact programs, in the order they are matched; in each field the likeliest first. */
const HEADINGS: readonly (readonly [field: ContactField, patterns: readonly RegExp[]])[] = [
  ['first', [/^(?:first|given) name$|^first$|^given$/i]],
  ['last', [/^(?:last|family) name$|^surname$|^last$/i]],
  ['name', [/^(?:full |display |customer |client )?name$/i, /^(?:customer|client)$/i, CONTACT]],
  ['contact', [CONTACT, /^attn\.?$|^attention$/i]],
  [
    'company',
    [
      /^(?:company|organi[sz]ation|business)(?: name)?$|^(?:company|organi[sz]ation)\b(?!.*(?:title|department|phone|e-?mail|street|address))/i,
    ],
  ],
  ['email', [/^(?:primary |main |home )?e-?mail(?: address)?$/i, /e-?mail/i]],
  ['country', [/country/i]],
  ['box', [/\bp\.?\s?o\.? ?box\b/i]],
  ['line2', [/\b(?:address|street)(?: line)? ?2$/i, /\bextended\b|\bapartment\b|\bapt\b|\bsuite\b|^unit$/i]],
  ['line', [/street(?!.*\b3$)|^address(?: line)?(?: 1)?$/i, /\baddress\b(?!.*(?:e-?mail|2|3))/i]],
  ['city', [/^(?:town|city)$|city$|locality/i, WHOLE_CITY]],
  ['region', [/(?:state|province)$/i, /^st\.?$|^state\b(?!.*(?:tax|licen[sc]e|\bid\b))|\bprov\.?$/i, /region$/i, /^county$/i]],
  ['zip', [/zip|postal|postcode/i]],
  ['phone', [/mobile|\bcell/i, /^(?:primary |main |home )?(?:phone|tel)/i, /phone|\btel\b|telephone/i]],
  ['notes', [/note|comment|remark/i]],
];

/** Headings of the filled columns that no field is read from; a column without a heading by its number. */
export function unreadHeadings(headings: readonly string[], rows: readonly (readonly string[])[], match: ColumnMatch): string[] {
  const read = new Set(CONTACT_FIELDS.flatMap((field) => match[field]));
  const width = rows.reduce((most, cells) => Math.max(most, cells.length), headings.length);
  return Array.from({ length: width }, (_, i) => i)
    .filter((i) => !read.has(i) && rows.some((cells) => (cells[i] ?? '').trim() !== ''))
    .map((i) => (headings[i] ?? '').trim() || `Column ${i + 1}`);
}

/** The word in a heading that tells addresses apart: `Home Street`, `Address 1 - City`. */
const placeOf = (heading: string): string =>
  /\b(?:home|business|work|office|billing|mailing|shipping|other)\b|\b\d+(?= -)/i.exec(heading)?.[0].toLowerCase() ?? '';

type Place = { key: string; readonly columns: Partial<Record<PlaceField, number>> };

/** Groups the columns of addresses, from left to right: a field again, or another place, begins the next address. */
function placesOf(headings: readonly string[], columns: ReadonlyMap<number, PlaceField>): Place['columns'][] {
  const places: Place[] = [];
  for (const [column, field] of [...columns].toSorted(([a], [b]) => a - b)) {
    const key = placeOf(headings[column] ?? '');
    let place = places.findLast((p) => p.columns[field] === undefined && (p.key === key || p.key === '' || key === ''));
    if (place === undefined) places.push((place = { key, columns: {} }));
    place.key ||= key;
    place.columns[field] = column;
  }
  const [first = { key: '', columns: {} }, ...others] = places;
  return [first, ...others.filter((p) => (p.columns.line ?? p.columns.box ?? p.columns.city) !== undefined)].map((p) => p.columns);
}

/**
 * Matches columns to fields by their headings. Each column is used once; columns of labels, phonetic names and faxes are not used. Phones
 * and emails have two columns or more, so that a second one can be chosen.
 */
export function matchColumns(headings: readonly string[]): ColumnMatch {
  const taken = new Set<number>();
  const found = new Map<ContactField, readonly number[]>();
  for (const [field, patterns] of HEADINGS) {
    const likely = patterns.map((pattern) =>
      headings.flatMap((given, i) => {
        const heading = given.trim();
        const isOther = NOT_A_VALUE.test(heading) || FAX.test(heading) || (pattern !== WHOLE_CITY && WHOLE_CITY.test(heading));
        return !taken.has(i) && !isOther && pattern.test(heading) ? [i] : [];
      }),
    );
    const best = likely.find((columns) => columns.length > 0) ?? [];
    const isPlace = (PLACE_FIELDS as readonly string[]).includes(field);
    const columns = field === 'phone' || field === 'email' ? [...new Set(likely.flat())] : isPlace ? best : best.slice(0, 1);
    for (const column of columns) taken.add(column);
    found.set(field, columns);
  }
  const places = placesOf(
    headings,
    new Map(PLACE_FIELDS.flatMap((field) => (found.get(field) ?? []).map((column) => [column, field] as const))),
  );
  const slots = (field: ContactField): (number | null)[] => {
    if ((PLACE_FIELDS as readonly string[]).includes(field)) return places.map((place) => place[field as PlaceField] ?? null);
    const columns = found.get(field) ?? [];
    const least = field === 'phone' || field === 'email' ? 2 : 1;
    return Array.from({ length: Math.max(least, columns.length) }, (_, i) => columns[i] ?? null);
  };
  return Object.fromEntries(CONTACT_FIELDS.map((field) => [field, slots(field)])) as unknown as ColumnMatch;
}
