/** The data sheets of new data: typical, with generic names. */
import { dayOfInstant } from '../measure/moment.ts';
import type { Material, MaterialKind, PrimerUse } from '../book/material.ts';
import { SQUARE_FOOT_PER_GALLON_M2_PER_L } from '../measure/coverage.ts';
import { SQUARE_FOOT_M2 } from '../measure/area.ts';
import { FOOT_M } from '../measure/length-units.ts';
import { POUND_KG } from '../measure/mass.ts';
import { GALLON_M3, LITER_M3 } from '../measure/volume.ts';
import { TYPICAL_BAG_KG, TYPICAL_POWDERS } from './typical-powders.ts';

const GALLON_L = GALLON_M3 / LITER_M3;
const TYPICAL_NOTE = 'Typical figures, common practice. Enter the data sheet’s figures.';
const POWDER_CAUTION = 'Do not breathe the dust. Wet cement burns skin and eyes. Wear gloves and goggles, and rinse at once.';
const PRIMER_CAUTION = 'Read the label. Wear gloves and eye protection, and ventilate.';

type Sundry = {
  readonly slug: string;
  readonly kind: MaterialKind;
  readonly name: string;
  readonly container: Material['container'];
  readonly usdMinor: number;
  readonly primer?: readonly PrimerUse[];
  readonly goes?: Material['goes'];
  readonly silica?: boolean;
  readonly cautions?: string;
};

function use(
  substrate: PrimerUse['substrate'],
  coats: number,
  sqFtPerGallon: number,
  waterParts: number,
  { least: dryLeast, most: dryMost }: { readonly least: number; readonly most: number },
): PrimerUse {
  return {
    substrate,
    coats,
    coverageM2PerL: sqFtPerGallon * SQUARE_FOOT_PER_GALLON_M2_PER_L,
    waterParts,
    dryHoursLeast: dryLeast,
    dryHoursMost: dryMost,
    source: 'typical',
  };
}

const jug = (unit: 'L', gallons: number) => ({ name: gallons === 1 ? 'jug' : 'pail', unit, holds: gallons * GALLON_L });

/** Coverage, dilution, sizes and prices are common practice, no source. */
const SUNDRIES: readonly Sundry[] = [
  {
    slug: 'primer-porous',
    kind: 'primer',
    name: 'Primer, porous substrate',
    container: jug('L', 1),
    usdMinor: 4200,
    primer: [use('porous', 2, 300, 3, { least: 1, most: 24 })],
    cautions: PRIMER_CAUTION,
  },
  {
    slug: 'primer-non-porous',
    kind: 'primer',
    name: 'Primer, non-porous substrate',
    container: jug('L', 1),
    usdMinor: 8800,
    primer: [
      use('non-porous', 1, 350, 0, { least: 3, most: 24 }),
      use('tile', 1, 350, 0, { least: 3, most: 24 }),
      use('metal', 1, 300, 0, { least: 3, most: 24 }),
    ],
    silica: true,
    cautions: PRIMER_CAUTION,
  },
  {
    slug: 'primer-wood',
    kind: 'primer',
    name: 'Primer, wood',
    container: jug('L', 1),
    usdMinor: 5800,
    primer: [use('wood', 1, 200, 0, { least: 3, most: 24 })],
    cautions: PRIMER_CAUTION,
  },
  {
    slug: 'perimeter-strip',
    kind: 'perimeter-strip',
    name: 'Perimeter strip, foam',
    container: { name: 'roll', unit: 'm', holds: 80 * FOOT_M },
    usdMinor: 1800,
  },
  { slug: 'dam', kind: 'dam', name: 'Dam strip for doorways', container: { name: 'roll', unit: 'm', holds: 25 * FOOT_M }, usdMinor: 2400 },
  {
    slug: 'crack-filler',
    kind: 'crack-filler',
    name: 'Crack filler, two-part',
    container: { name: 'kit', unit: 'L', holds: 0.6 },
    usdMinor: 2800,
    goes: { unit: 'm', perContainer: 20 * FOOT_M },
    cautions: 'Solvents and resins. Ventilate, wear gloves, and keep flames away.',
  },
  {
    slug: 'sealer',
    kind: 'sealer',
    name: 'Sealer for bare toppings',
    container: jug('L', 1),
    usdMinor: 6500,
    goes: { unit: 'm2', perContainer: 150 * SQUARE_FOOT_M2 },
    cautions: 'Ventilate while it dries. The floor is slippery until then.',
  },
  {
    slug: 'lath',
    kind: 'reinforcement',
    name: 'Galvanized lath, 2.5 lb, with staples',
    container: { name: 'sheet', unit: 'm2', holds: 18 * SQUARE_FOOT_M2 },
    usdMinor: 1600,
  },
  {
    slug: 'reinforcement',
    kind: 'reinforcement',
    name: 'Reinforcing mesh, glass fiber',
    container: { name: 'roll', unit: 'm2', holds: 500 * SQUARE_FOOT_M2 },
    usdMinor: 9500,
  },
  {
    slug: 'aggregate',
    kind: 'aggregate',
    name: 'Pea gravel, 1/8 to 3/8 in., washed and dry',
    container: { name: 'bag', unit: 'kg', holds: 50 * POUND_KG },
    usdMinor: 700,
    silica: true,
  },
  {
    slug: 'moisture-barrier',
    kind: 'moisture-barrier',
    name: 'Moisture mitigation system, two-part epoxy',
    container: { name: 'kit', unit: 'L', holds: 3 * GALLON_L },
    usdMinor: 31_000,
    goes: { unit: 'm2', perContainer: 300 * SQUARE_FOOT_M2 },
    cautions:
      'Epoxy: nitrile gloves, eye protection, fresh air. Keep it off the skin. Broadcast 0.5 to 1 lb of dry sand per sq ft where its data sheet says so.',
  },
  { slug: 'mixing-paddle', kind: 'tool', name: 'Mixing paddle', container: { name: 'paddle', unit: 'piece', holds: 1 }, usdMinor: 3800 },
  { slug: 'spiked-roller', kind: 'tool', name: 'Spiked roller', container: { name: 'roller', unit: 'piece', holds: 1 }, usdMinor: 3200 },
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
    prices: currency === 'USD' ? [{ from: dayOfInstant(now, zone), minor: usdMinor, note: 'Typical' }] : [],
    notes: TYPICAL_NOTE,
  });
  const powders = TYPICAL_POWDERS.map(
    ({ slug, kind, name, usdMinor, powder }): Material => ({
      ...base(slug, usdMinor),
      kind,
      name,
      container: { name: 'bag', unit: 'kg', holds: TYPICAL_BAG_KG },
      powder: structured(powder),
      primer: [],
      goes: null,
      // Most bags hold sand, gypsum-based ones too.
      silica: true,
      cautions: POWDER_CAUTION,
    }),
  );
  const sundries = SUNDRIES.map(
    (sundry): Material => ({
      ...base(sundry.slug, sundry.usdMinor),
      kind: sundry.kind,
      name: sundry.name,
      container: { ...sundry.container },
      powder: null,
      primer: (sundry.primer ?? []).map((u) => ({ ...u })),
      goes: sundry.goes === undefined || sundry.goes === null ? null : { ...sundry.goes },
      silica: sundry.silica ?? false,
      cautions: sundry.cautions ?? '',
    }),
  );
  return [...powders, ...sundries];
}

/** A copy of each data sheet, so that edits do not change the templates. */
function structured(powder: NonNullable<Material['powder']>): NonNullable<Material['powder']> {
  return { ...powder, bondsTo: [...powder.bondsTo], milestones: powder.milestones.map((milestone) => ({ ...milestone })) };
}
