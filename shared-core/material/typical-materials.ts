/** The data sheets of new data: typical, with generic names. */
import { dayOfInstant } from '../measure/moment.ts';
import type { Container, Material, MaterialKind, PrimerUse } from '../book/material.ts';
import { SQUARE_FOOT_PER_GALLON_M2_PER_L } from '../measure/coverage.ts';
import { SQUARE_FOOT_M2 } from '../measure/area.ts';
import { FOOT_M } from '../measure/length-units.ts';
import { POUND_KG } from '../measure/mass.ts';
import { GALLON_M3, LITER_M3 } from '../measure/volume.ts';
import { TYPICAL_POWDERS } from './typical-powders.ts';

const GALLON_L = GALLON_M3 / LITER_M3;
/** The note of a price that a new book starts with. */
export const TYPICAL_PRICE = 'Typical';
const TYPICAL_NOTE = 'Typical figures, common practice. Enter the data sheet’s figures.';
const POWDER_CAUTION = 'Do not breathe the dust. Wet cement burns skin and eyes. Wear gloves and goggles, and rinse at once.';
const PRIMER_CAUTION = 'Read the label. Wear gloves and eye protection, and ventilate.';

type Sundry = Pick<Material, 'kind' | 'name' | 'container' | 'primer' | 'goes' | 'silica' | 'cautions'> & {
  readonly slug: string;
  readonly usdMinor: number;
};

/** A primer's use on a kind of substrate; the pour may follow until a day after it is dry. */
function use(
  substrate: PrimerUse['substrate'],
  coats: number,
  sqFtPerGallon: number,
  waterParts: number,
  dryHoursLeast: number,
): PrimerUse {
  const coverageM2PerL = sqFtPerGallon * SQUARE_FOOT_PER_GALLON_M2_PER_L;
  return { substrate, coats, coverageM2PerL, waterParts, dryHoursLeast, dryHoursMost: 24, source: 'typical' };
}

const JUG: Container = { name: 'jug', unit: 'L', holds: GALLON_L };
const holding = (name: string, unit: Container['unit'], holds: number): Container => ({ name, unit, holds });
/** Its id ends with its kind unless `more` names a slug. */
const sundry = (kind: MaterialKind, name: string, container: Container, usdMinor: number, more: Partial<Sundry> = {}): Sundry => ({
  slug: kind,
  kind,
  name,
  container,
  usdMinor,
  primer: [],
  goes: null,
  silica: false,
  cautions: '',
  ...more,
});
const primer = (slug: string, name: string, usdMinor: number, uses: PrimerUse[], silica = false): Sundry =>
  sundry('primer', name, JUG, usdMinor, { slug, primer: uses, silica, cautions: PRIMER_CAUTION });

/**
 * Coverage, dilution, sizes and prices are common practice, no source. Every primer has a use on porous floors: later lifts go on fresh
 * underlayment. A fresh list each time, so that edits do not change the templates.
 */
const sundries = (): readonly Sundry[] => [
  primer('primer-porous', 'Primer, porous substrate', 4200, [use('porous', 2, 300, 3, 1)]),
  primer(
    'primer-non-porous',
    'Primer, non-porous substrate',
    8800,
    [use('non-porous', 1, 350, 0, 3), use('tile', 1, 350, 0, 3), use('metal', 1, 300, 0, 3), use('porous', 1, 350, 0, 3)],
    true,
  ),
  primer('primer-wood', 'Primer, wood', 5800, [use('wood', 1, 200, 0, 3), use('porous', 2, 300, 3, 1)]),
  sundry('perimeter-strip', 'Perimeter isolation strip, foam', holding('roll', 'm', 80 * FOOT_M), 1800),
  sundry('dam', 'Dam strip for doorways', holding('roll', 'm', 25 * FOOT_M), 2400),
  sundry('crack-filler', 'Crack filler, two-part', holding('kit', 'L', 0.6), 2800, {
    goes: { unit: 'm', perContainer: 20 * FOOT_M },
    cautions: 'Solvents and resins. Ventilate, wear gloves, and keep flames away.',
  }),
  sundry('sealer', 'Sealer for bare toppings', JUG, 6500, {
    goes: { unit: 'm2', perContainer: 150 * SQUARE_FOOT_M2 },
    cautions: 'Ventilate while it dries. The floor is slippery until then.',
  }),
  sundry('reinforcement', 'Galvanized lath, 2.5 lb, with staples', holding('sheet', 'm2', 18 * SQUARE_FOOT_M2), 1600, { slug: 'lath' }),
  sundry('reinforcement', 'Reinforcing mesh, fiberglass', holding('roll', 'm2', 500 * SQUARE_FOOT_M2), 9500),
  sundry('aggregate', 'Pea gravel, 1/8 to 3/8 in., washed and dry', holding('bag', 'kg', 50 * POUND_KG), 700, { silica: true }),
  sundry('moisture-barrier', 'Moisture mitigation system, two-part epoxy', holding('kit', 'L', 3 * GALLON_L), 31_000, {
    goes: { unit: 'm2', perContainer: 300 * SQUARE_FOOT_M2 },
    cautions:
      'Epoxy: nitrile gloves, eye protection, fresh air. Keep it off the skin. Broadcast 0.5 to 1 lb of dry sand per sq ft where its data sheet says so.',
  }),
  sundry('tool', 'Mixing paddle', holding('paddle', 'piece', 1), 3800, { slug: 'mixing-paddle' }),
  sundry('tool', 'Spiked roller', holding('roller', 'piece', 1), 3200, { slug: 'spiked-roller' }),
];

/** The fixed id of a typical sheet: `typical-underlayment-fine`. */
export function typicalId(slug: string): string {
  return `typical-${slug}`;
}

/**
 * The typical sheets.
 * @param idOf makes an id from a sheet's own short name; {@link typicalId} gives the fixed ones
 * @param now when they are made, ISO UTC
 * @param zone their prices count from that day in this time zone
 * @param currency prices are typical ones in US dollars and left out for any other currency
 */
export function typicalMaterials(idOf: (slug: string) => string, now: string, zone: string, currency = 'USD'): Material[] {
  const base = (slug: string, usdMinor: number) => ({
    id: idOf(slug),
    createdAt: now,
    changedAt: now,
    deletedAt: null,
    typical: true,
    sheetFrom: '',
    supplier: '',
    prices: currency === 'USD' ? [{ from: dayOfInstant(now, zone), minor: usdMinor, note: TYPICAL_PRICE }] : [],
    notes: TYPICAL_NOTE,
  });
  const powders = TYPICAL_POWDERS.map(
    ({ slug, kind, name, usdMinor, powder }): Material => ({
      ...base(slug, usdMinor),
      kind,
      name,
      container: null,
      powder: structured(powder),
      primer: [],
      goes: null,
      // Most bags hold sand, gypsum-based ones too.
      silica: true,
      cautions: POWDER_CAUTION,
    }),
  );
  const others = sundries().map(
    ({ slug, usdMinor, kind, name, container, ...more }): Material => ({
      ...base(slug, usdMinor),
      ...{ kind, name, container, powder: null },
      ...more,
    }),
  );
  return [...powders, ...others];
}

/** A copy of each data sheet, so that edits do not change the templates. */
function structured(powder: NonNullable<Material['powder']>): NonNullable<Material['powder']> {
  return { ...powder, bondsTo: [...powder.bondsTo], milestones: powder.milestones.map((milestone) => ({ ...milestone })) };
}
