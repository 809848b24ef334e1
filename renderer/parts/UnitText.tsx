import { setFractions } from '../../shared-core/drawing/fraction.ts';

const NUMBER_AND_UNIT = /(\d|[½¼¾⅛⅜⅝⅞₀-₉]) (?=(?:ft|in|lb|kg|g|m|mm|cm|qt|gal|L|psi|MPa|h|min|s|sq|cu|am|pm|bags?|days?|hours?)\b|%|°)/g;

/** A plain quantity set as print does: drawn fractions, and no line break between a number and its unit. */
export function setQuantities(text: string): string {
  return setFractions(text).replace(NUMBER_AND_UNIT, '$1\u00a0');
}

/** Words with quantities in them, set as print does. */
export function UnitText({ children }: { readonly children: string }) {
  return <>{setQuantities(children)}</>;
}
