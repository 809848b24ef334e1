/** The words a caller uses for rooms, floors, depths and how they heard of the business. */
import type { LayerMaterial } from '../book/layer.ts';
import { capital } from '../measure/first-letter.ts';
import { parseLength } from '../measure/length.ts';

/** Patterns of lengths, as sources of regular expressions. */
export const INCH_SIGN = String.raw`(?:"|”|″|in\.?|inch(?:es)?)`;
export const FOOT_SIGN = String.raw`(?:'|’|′|ft\.?|feet|foot)`;
const DEPTH_UNIT = String.raw`(?:"|”|″|(?:in|inch|inches|mm|cm)\b\.?(?!\s+\d))`;
/** A depth: a fraction as a tape has it, from halves to sixteenths, or a number with decimals or a unit. */
export const DEPTH = String.raw`(?:(?:\d{1,2}(?:\s+|\s*-\s*))?\d{1,2}/(?:2|4|8|16)(?![\d/])(?:\s*${DEPTH_UNIT})?|(?:\d+[.,]|\.)\d+(?:\s*${DEPTH_UNIT})?|\d+\s*${DEPTH_UNIT})`;
const COUNTS: Readonly<Record<string, string>> = { two: '2', three: '3', five: '5', seven: '7' };
const PARTS: Readonly<Record<string, string>> = { half: '2', quarter: '4', eighth: '8', sixteenth: '16' };
const WHOLE = '(an|one|two|three|[1-3])';
const PART = '(?:(an?|one|three|five|seven)[ -])?(half|quarter|eighth|sixteenth)s?';
const SPOKEN = new RegExp(
  String.raw`\b(?:${WHOLE} and ${PART}(?: of an)?[ -]inch(?:es)?|${WHOLE}[ -]inch(?:es)? and ${PART}|${PART}(?: of)?(?: an)?[ -]inch|(an|one|two|three)[ -]inch(?:es)?)\b`,
  'gi',
);
/** Depths in digits where they are spoken: `half an inch`, `three quarters of an inch`, `an inch and a half`, `two and a half inches`. */
export function depthsInDigits(text: string): string {
  const count = (word = ''): string => COUNTS[word.toLowerCase()] ?? (/^\d$/.test(word) ? word : '1');
  return text.replace(SPOKEN, (_, ...found: (string | undefined)[]) => {
    const [wholeA, topA, partA, wholeB, topB, partB, topC, partC, alone] = found;
    const [whole, top, part] = [wholeA ?? wholeB ?? alone, topA ?? topB ?? topC, partA ?? partB ?? partC];
    const fraction = part === undefined ? [] : [`${count(top)}/${PARTS[part.toLowerCase()] ?? ''}`];
    return [...(whole === undefined ? [] : [count(whole)]), ...fraction, 'inch'].join(' ');
  });
}

/** What a floor that is not flat has. */
export const BUMP = String.raw`(?:(?:low|high)\s+(?:spot|area|place|point|corner)s?|dips?|[hb]umps?|gaps?|drops?|sags?|crowns?|ridges?|slopes?)`;
/** What follows a depth. */
export const OF_DEPTH = String.raw`(?:deep|thick|out|off|low|high|average|unlevel|${BUMP})\b`;
/** The thickness of a layer, or the size of its lumber, before its name. */
const THICKNESS = String.raw`(?:${DEPTH}(?:\s+thick)?|2\s?x\s?\d{1,2})\s+`;

/** Rooms by the words for them, as regular expressions; the longer word comes first. */
export const ROOM_WORDS = [
  'living room',
  'family room',
  'dining room',
  'breakfast room',
  'sitting room',
  'great room',
  'rec room',
  'laundry room',
  'utility room',
  'powder room',
  'mud ?room',
  'sun ?room',
  'bed ?room',
  'bath ?room',
  'play ?room',
  'store ?room',
  'work ?shop',
  'half bath',
  'back hall',
  'front hall',
  'hallway',
  'hall',
  'kitchen',
  'breakfast nook',
  'nook',
  'entry ?way',
  'entry',
  'foyer',
  'bath',
  'laundry',
  'utility',
  'basement',
  'garage',
  'office',
  'study',
  'library',
  'den',
  'pantry',
  'porch',
  'studio',
  'closet',
  'attic',
  'shop',
  'store',
  'lobby',
  'breezeway',
] as const;

/** The word for a room, as the source of a regular expression. */
export const ROOM_WORD = `(?:${ROOM_WORDS.join('|')})`;
/** The words for one room, such as `hall bath`, as the source of a regular expression. */
export const ROOM_NAME = `${ROOM_WORD}(?: ${ROOM_WORD})*`;
/** Finds the name of a room. */
export const ROOM = new RegExp(`\\b${ROOM_NAME}\\b`, 'i');

const LAYERS: readonly (readonly [RegExp, LayerMaterial])[] = [
  [/^(?:vct|vinyl (?:composition )?tiles?|(?:asphalt|asbestos) tiles?|resilient tiles?)$/, 'resilient-tile'],
  [/^(?:sheet (?:vinyl|goods|flooring)|vinyl|linoleum|lino)$/, 'sheet-flooring'],
  [/^(?:lvp|lvt|floating floor|laminate|(?:(?:vinyl|lvp|lvt|laminate|floating|waterproof|click) )?planks?)$/, 'floating-plank'],
  [/^(?:carpet(?:ing)?)$/, 'carpet'],
  [/^(?:ceramic|ceramic tiles?|porcelain|porcelain tiles?|tiles?|quarry tiles?)$/, 'ceramic-tile'],
  [/^(?:stone|stone tiles?|marble|slate|travertine|granite)$/, 'stone-tile'],
  [/^terrazzo$/, 'terrazzo'],
  [/^(?:hardwood|wood floor(?:ing)?|wood|oak|maple|parquet|strip oak|engineered (?:wood|hardwood|oak|planks?))$/, 'wood-flooring'],
  [/^(?:cutback|black (?:adhesive|mastic|glue)|cutback adhesive)$/, 'adhesive-cutback'],
  [/^(?:glue|mastic|adhesive)$/, 'adhesive-unknown'],
  [/^(?:thinset|thin-set)$/, 'thinset'],
  [/^(?:felt)$/, 'underlay-felt'],
  [/^(?:pad|foam|foam pad)$/, 'foam-pad'],
  [/^(?:paint|sealer|painted concrete)$/, 'paint-or-sealer'],
  [/^(?:old (?:leveler|leveling|underlayment))$/, 'old-leveling'],
  [/^(?:screed|mud bed|mortar bed)$/, 'screed'],
  [/^(?:gypsum|gypsum underlayment)$/, 'gypsum'],
  [/^(?:boards|board subfloor|plank subfloor|old plank floor(?:s|ing)?|diagonal boards)$/, 'boards'],
  [/^(?:plywood|ply|wood subfloor|subfloor)$/, 'plywood'],
  [/^(?:particle ?board)$/, 'particleboard'],
  [/^osb$/, 'osb'],
  [/^(?:slab|concrete|slab on grade|concrete slab|on grade slab)$/, 'concrete-on-ground'],
  [/^(?:suspended (?:slab|concrete)|elevated slab)$/, 'concrete-suspended'],
  [/^(?:joists|wood joists|framing)$/, 'joists'],
  [/^(?:metal|steel)$/, 'metal'],
];

/** The words for a layer, as the source of a regular expression. */
export const LAYER_WORD = `(?:${LAYERS.map(([pattern]) => pattern.source.slice(1, -1)).join('|')})`;

const BEFORE = new RegExp(String.raw`^(?:${THICKNESS}|(?:an?|the|old|existing|some|worn|cracked|loose|bare|on)\s+)`);
const AFTER = /\s+(?:floor|floors|flooring|subfloor)$/;

/** The layer a phrase names, such as `old ceramic tile`; null when it names none. */
export function layerOf(phrase: string): LayerMaterial | null {
  let words = phrase.trim().toLowerCase().replace(/\s+/g, ' ');
  const find = (): LayerMaterial | null => LAYERS.find(([pattern]) => pattern.test(words))?.[1] ?? null;
  for (let layer = find(); ; layer = find()) {
    if (layer !== null) return layer;
    // What stands before goes first: `the old plank floor` are boards, `plank` is not.
    const shorter = words.replace(BEFORE, '');
    const next = shorter === words ? words.replace(AFTER, '') : shorter;
    if (next === words) return null;
    words = next;
  }
}

/** Planks of no kind named. Straight on joists they are the subfloor: a floating plank needs one below. Common practice, no source. */
const PLANKS = /(?:^|\s)(?<!(?:vinyl|lvp|lvt|laminate|floating|waterproof|click|engineered)\s)planks?(?:\s+floor(?:s|ing)?)?$/i;

const BETWEEN = /\s+(?:over|on top of|on|and)\s+/i;
const THICK = new RegExp(`^(${DEPTH})\\s`, 'i');

/** A layer as the caller named it. `thicknessM` is in meters, null while unknown. */
export type LayerRead = { readonly material: LayerMaterial; readonly thicknessM: number | null };

/** The layers that words such as `carpet over 3/4" plywood over joists` name, from the top down; null when one of them is not known. */
export function readLayers(text: string): LayerRead[] | null {
  const named = text.trim().split(BETWEEN);
  const layers = named.flatMap((words, n) => {
    const isSubfloor = PLANKS.test(words) && layerOf(named[n + 1] ?? '') === 'joists';
    const material = isSubfloor ? 'boards' : layerOf(words);
    // A tape's fraction is in inches in either system.
    const depth = parseLength(THICK.exec(words)?.[1] ?? '', 'us', 'depth', 'en-US');
    return material === null ? [] : [{ material, thicknessM: depth.ok && depth.value > 0 ? depth.value : null }];
  });
  return layers.length === named.length ? layers : null;
}

/** How a customer heard of the business. Takes `referred by Ann Doyle` with the name, up to a comma or a part already read. */
export const SOURCE =
  /\b(?:(?:referred by|referral from) (?:(?! {2})[^,;])+|referred|referral|word of mouth|repeat(?: customer)?|website|web site|online(?: search)?|social media|yard sign|truck sign|flyer|mailer|newspaper|neighbor|trade show)\b/i;

/** The source in one spelling: `Referral`, `Referral: Ann Doyle`, `Website`. */
export function sourceName(text: string): string {
  const from = /^refer(?:red by|ral from)\s+(.+)$/i.exec(text.trim());
  if (from !== null) return `Referral: ${(from[1] ?? '').trim()}`;
  if (/^(?:referred|referral|word of mouth)$/i.test(text.trim())) return 'Referral';
  if (/^web ?site$/i.test(text.trim())) return 'Website';
  return capital(text.trim().toLowerCase());
}
