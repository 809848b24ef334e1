/** Searches customers, properties, rooms, jobs and materials by a few letters, in the words stored with them. */
import MiniSearch from 'minisearch';
import { joined } from '../../shared-core/measure/list.ts';
import { book, type WordsRow } from './database.ts';
import { FOUND_TABLES, type FoundTable, queryReadings, readyWords } from './words.ts';

export type Found = {
  readonly id: string;
  readonly kind: 'customer' | 'property' | 'room' | 'job' | 'material';
  readonly title: string;
  readonly detail: string;
  readonly href: string;
};

/** Limits: shown, matched, matched by one letter, and followed to records under a match. */
const SHOWN = 30;
const MATCHED = 1500;
const MATCHED_BY_LETTER = 300;
const FOLLOWED = 80;
/** Words of this length are also matched with spelling errors. */
const FUZZY_FROM = 5;
const FUZZY_SHARE = 0.25;
const FUZZY_WORDS = 6;
/** A number close to another is another number. */
const mayBeMisspelled = (term: string): boolean => term.length >= FUZZY_FROM && /\D/.test(term);
/** Scores: a whole word, the start of a word, or a match of the record above. */
const SCORE = { whole: 4, begun: 3, under: 1 } as const;

type Scores = Map<string, number>;
const kindOf = (key: string): FoundTable => key.slice(0, key.indexOf('/')) as FoundTable;
const raise = (scores: Scores, keys: readonly string[], score: number): void => {
  for (const key of keys) scores.set(key, Math.max(score, scores.get(key) ?? 0));
};

/**
 * Records with a word that starts with the term, and the records under them: a customer's properties, their rooms and jobs.
 * @param isAlone no other term narrows them; the records under a full list of better matches are then not read
 */
const matching = async (term: string, isAlone: boolean): Promise<Scores> => {
  const { words } = book();
  const scores: Scores = new Map();
  // Whoever has more matches of one letter types another.
  const most = isAlone && term.length === 1 ? MATCHED_BY_LETTER : MATCHED;
  const [begun, whole] = await Promise.all([
    words.where('words').startsWith(term).limit(most).primaryKeys(),
    words.where('words').equals(term).limit(most).primaryKeys(),
  ]);
  raise(scores, begun, SCORE.begun);
  raise(scores, whole, SCORE.whole);
  if (isAlone && scores.size >= SHOWN) return scores;
  let over = [...scores.keys()].filter((key) => ['customers', 'properties'].includes(kindOf(key))).slice(0, FOLLOWED);
  // Two passes: from customer to property, from property to rooms.
  for (let step = 0; step < 2 && over.length > 0; step++) {
    const under = await words.where('under').anyOf(over).limit(MATCHED).primaryKeys();
    over = under.filter((key) => kindOf(key) === 'properties' && !scores.has(key)).slice(0, FOLLOWED);
    raise(
      scores,
      under.filter((key) => !scores.has(key)),
      SCORE.under,
    );
  }
  return scores;
};

const wordsOf = async (keys: readonly string[]): Promise<Map<string, WordsRow>> =>
  new Map((await book().words.bulkGet([...new Set(keys)])).flatMap((row) => (row === undefined ? [] : [[row.key, row]])));

/** Keeps the records that also match the other terms, themselves or through a record above. */
const narrowed = async (scores: Scores, terms: readonly string[]): Promise<Scores> => {
  if (terms.length === 0) return scores;
  const known = new Map<string, WordsRow>();
  let wanted = [...scores.keys()];
  for (let step = 0; step < 3 && wanted.length > 0; step++) {
    const rows = await wordsOf(wanted);
    for (const [key, row] of rows) known.set(key, row);
    wanted = [...rows.values()].flatMap((row) => row.under).filter((key) => !known.has(key));
  }
  const score = (key: string, term: string): number => {
    const row = known.get(key);
    if (row === undefined) return 0;
    if (row.words.includes(term)) return SCORE.whole;
    if (row.words.some((word) => word.startsWith(term))) return SCORE.begun;
    return row.under.some((over) => score(over, term) > 0) ? SCORE.under : 0;
  };
  const matching: Scores = new Map();
  for (const [key, first] of scores) {
    const others = terms.map((term) => score(key, term));
    if (others.every((s) => s > 0))
      matching.set(
        key,
        others.reduce((sum, s) => sum + s, first),
      );
  }
  return matching;
};

const best = (scores: Scores): string[] =>
  [...scores]
    .sort(([a, x], [b, y]) => y - x || FOUND_TABLES.indexOf(kindOf(a)) - FOUND_TABLES.indexOf(kindOf(b)) || (a < b ? -1 : a > b ? 1 : 0))
    .slice(0, SHOWN)
    .map(([key]) => key);

const KINDS: Readonly<Record<FoundTable, Found['kind']>> = {
  customers: 'customer',
  properties: 'property',
  jobs: 'job',
  rooms: 'room',
  materials: 'material',
};

const shown = async (keys: readonly string[]): Promise<Found[]> => {
  const found = [...(await wordsOf(keys)).values()];
  const above = await wordsOf(found.flatMap(({ under }) => under));
  return found.map(({ key, title, detail, under, href }) => ({
    ...{ id: key, kind: KINDS[kindOf(key)], title, href },
    detail: joined([detail, ...under.map((over) => above.get(over)?.label ?? '')]),
  }));
};

/** One transaction for all reads of a query: opening one for each takes longer than reading the rows. */
const together = <T>(read: () => Promise<T>): Promise<T> => book().transaction('r', 'words', read);

/** Indexed words close to a misspelled one. */
type Vocabulary = (term: string) => string[];
const openVocabulary = async (): Promise<Vocabulary> => {
  const all = (await book().words.orderBy('words').uniqueKeys()).map((word) => (typeof word === 'string' ? word : ''));
  const index = new MiniSearch<{ id: number; word: string }>({ fields: ['word'], tokenize: (text) => [text] });
  index.addAll(all.map((word, id) => ({ id, word })));
  return (term) =>
    index
      .search(term, { fuzzy: FUZZY_SHARE, prefix: true })
      .slice(0, FUZZY_WORDS)
      .map((hit) => all[Number(hit.id)] ?? '');
};

const search = async (terms: readonly string[]): Promise<Scores> => {
  // The longest term is usually the rarest; the others narrow its matches.
  const [first, ...others] = [...terms].sort((a, b) => b.length - a.length);
  return first === undefined ? new Map<string, number>() : narrowed(await matching(first, others.length === 0), others);
};

export async function openRecordSearch(): Promise<(query: string) => Promise<Found[]>> {
  await readyWords();
  let vocabulary: Promise<Vocabulary> | null = null;
  return async (query) => {
    const readings = queryReadings(query);
    const terms = readings.at(-1) ?? [];
    const found = await together(async () => {
      for (const reading of readings) {
        const scores = await search(reading);
        if (scores.size > 0) return shown(best(scores));
      }
      return terms.some(mayBeMisspelled) ? null : [];
    });
    if (found !== null) return found;
    vocabulary ??= openVocabulary();
    const meant = await vocabulary;
    return together(async () => {
      const near: Scores = new Map();
      for (const term of terms.filter(mayBeMisspelled))
        for (const word of meant(term))
          for (const [key, score] of await search(terms.map((t) => (t === term ? word : t)))) raise(near, [key], score);
      return shown(best(near));
    });
  };
}
