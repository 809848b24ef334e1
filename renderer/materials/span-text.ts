/** A minimum and maximum entered in one field: `5 to 5 1/4 qt`. The caller passes the parser of the quantity. */
import type { Span } from '../../shared-core/material/sheet.ts';
import type { Parsed } from '../../shared-core/measure/parsed.ts';
import { withoutRestated } from '../../shared-core/measure/quantity.ts';

type Read = (text: string) => Parsed<number>;
type Show = (value: number) => string;

/** The unit at the end of a text: `qt`, `″`, `°F`. */
const UNIT = /[^\d.,\s/⁄½¼¾⅛⅜⅝⅞⅓⅔+\-−–⁰¹⁴-⁹₀-₉][^\d]*$/u;
const BETWEEN = /\s*(?:\bto\b|–|—|…|\.\.\.)\s*/i;

const ends = (text: string, read: Read): readonly [string, string] | null => {
  const [first = '', second, ...more] = text.trim().split(BETWEEN);
  if (more.length > 0) return null;
  if (second !== undefined) return [first, second];
  // A hyphen can be part of a fraction (1-1/4) or a minus sign, so it separates two values only where the whole text is not one value.
  if (read(first).ok) return [first, first];
  const hyphen = /^(.*[\d½¼¾⅛⅜⅝⅞″"'′a-zF])\s*-\s*([\d½¼¾⅛⅜⅝⅞].*)$/.exec(first);
  return hyphen === null ? [first, first] : [hyphen[1] ?? '', hyphen[2] ?? ''];
};

/** Parses both ends. The first takes the unit of the second when it has none. A single value is both. */
export function readSpan(text: string, read: Read, show: Show, example: string): Parsed<Span> {
  const typed = text.trim();
  const parts = ends(withoutRestated(typed), read);
  if (parts === null || parts.includes('')) return { ok: false, message: `“${typed}”: enter the minimum and maximum, such as ${example}.` };
  const [first, second] = parts;
  const unit = UNIT.exec(second)?.[0] ?? '';
  const least = read(UNIT.test(first) || unit === '' ? first : `${first} ${unit}`);
  if (!least.ok) return least;
  const most = read(second);
  if (!most.ok) return most;
  if (least.value > most.value) {
    return {
      ok: false,
      message: `“${typed}”: the minimum is greater than the maximum. Did you mean ${spanText({ least: most.value, most: least.value }, show)}?`,
    };
  }
  return { ok: true, value: { least: least.value, most: most.value } };
}

/** Both ends with one unit, `5 to 5.25 qt`; one value where they are equal. */
export function spanText(span: Span, show: Show): string {
  const [least, most] = [show(span.least), show(span.most)];
  if (least === most) return most;
  const [unit, other] = [UNIT.exec(most)?.[0] ?? '', UNIT.exec(least)?.[0] ?? ''];
  const isDrawn = unit.startsWith('″');
  return unit !== '' && unit === other && !isDrawn ? `${least.slice(0, -unit.length).trim()} to ${most}` : `${least} to ${most}`;
}
