/** The form of each test: its fields, first values and method. */
import type { FloorTest, FloorTestKind } from '../../../shared-core/book/layer.ts';
import type { QuantityKindName } from '../quantity-kinds.ts';

type Base = { readonly key: string; readonly label: string; readonly hint?: string; readonly optional?: boolean };
/** A field of a test's form. Values are SI; `share` is typed as a percent. */
export type TestField =
  | (Base & { readonly as: 'quantity'; readonly kind: QuantityKindName })
  | (Base & { readonly as: 'number'; readonly unit: string; readonly least: number; readonly most: number })
  /** Seconds until a drop was absorbed; null where it stayed, undefined until entered. */
  | (Base & { readonly as: 'drop' })
  | (Base & { readonly as: 'share' })
  | (Base & { readonly as: 'shares' })
  | (Base & { readonly as: 'layer' })
  | (Base & { readonly as: 'choice'; readonly options: readonly { readonly value: string; readonly word: string }[] })
  | (Base & { readonly as: 'choices'; readonly options: readonly { readonly value: string; readonly word: string }[] });

export type TestForm = {
  readonly title: string;
  readonly fields: readonly TestField[];
  readonly begins: Readonly<Record<string, unknown>>;
  readonly source: string;
};

/** Dish and dome of the usual kit, 0.44486 sq ft between them; edited where the kit differs. */
const DOME_M2 = 0.04516;
const DISH_M2 = 0.003831;

const word = (value: string, text: string) => ({ value, word: text });

export const TEST_FORMS: Readonly<Record<FloorTestKind, TestForm>> = {
  'slab-humidity': {
    title: 'In-slab relative humidity (RH)',
    source: 'ASTM F2170. Drill with a shroud and HEPA vacuum, and only where no asbestos or lead hold applies.',
    begins: { relativeHumidity: null, depthM: null, slabThicknessM: null, dryingSides: 1, settledHours: 24, slabTempC: null },
    fields: [
      { key: 'relativeHumidity', label: 'RH', as: 'share' },
      { key: 'slabThicknessM', label: 'Slab thickness', as: 'quantity', kind: 'depth', optional: true },
      { key: 'depthM', label: 'Probe depth', as: 'quantity', kind: 'depth', hint: '40% of the slab drying from one side, 20% from two' },
      { key: 'dryingSides', label: 'Drying sides', as: 'choice', options: [word('1', 'one'), word('2', 'two')] },
      { key: 'settledHours', label: 'Equilibration time', as: 'number', unit: 'h', least: 0, most: 1000 },
      { key: 'slabTempC', label: 'Slab temperature', as: 'quantity', kind: 'temperature', optional: true },
    ],
  },
  'moisture-dish': {
    title: 'Calcium chloride test (MVER)',
    source: 'ASTM F1869: bare, ground concrete only',
    begins: { massBeforeG: null, massAfterG: null, dishAreaM2: DISH_M2, domeAreaM2: DOME_M2, hours: 72, overLayerId: null },
    fields: [
      { key: 'massBeforeG', label: 'Weight before', as: 'number', unit: 'g', least: 0.1, most: 2000 },
      { key: 'massAfterG', label: 'Weight after', as: 'number', unit: 'g', least: 0.1, most: 2000 },
      { key: 'hours', label: 'Exposure', as: 'number', unit: 'h', least: 1, most: 400 },
      { key: 'domeAreaM2', label: 'Dome area', as: 'quantity', kind: 'area' },
      { key: 'dishAreaM2', label: 'Dish area', as: 'quantity', kind: 'area' },
      { key: 'overLayerId', label: 'Dish placed on', as: 'layer', optional: true },
    ],
  },
  'wood-moisture': {
    title: 'Wood moisture content (MC)',
    source: 'Moisture meter, several places; NWFA',
    begins: { part: 'boards', readings: null },
    fields: [
      {
        key: 'part',
        label: 'Part',
        as: 'choice',
        options: [word('boards', 'subfloor'), word('structure', 'joists'), word('flooring', 'new flooring')],
      },
      { key: 'readings', label: 'Readings', as: 'shares', hint: 'percent, separated by spaces: 10.5 11 9.8' },
    ],
  },
  'drop-absorption': {
    title: 'Water drop test (porosity)',
    source: 'ASTM F3191: absorbed within a minute is porous',
    begins: { seconds: undefined, watchedSeconds: 60 },
    fields: [
      {
        key: 'seconds',
        label: 'Absorption time',
        as: 'drop',
        optional: true,
      },
      { key: 'watchedSeconds', label: 'Observation time', as: 'number', unit: 's', least: 1, most: 3600 },
    ],
  },
  'surface-ph': {
    title: 'Surface pH',
    source: 'ASTM F710, ASTM F3441: wet the surface, wait a minute, read the strip. Test the new surface before gluing.',
    begins: { ph: null },
    fields: [{ key: 'ph', label: 'pH', as: 'number', unit: '', least: 0, most: 14 }],
  },
  'pull-off': {
    title: 'Tensile bond (pull-off)',
    source: 'ASTM C1583',
    begins: { stressPa: null, failedIn: 'substrate' },
    fields: [
      { key: 'stressPa', label: 'Tensile bond', as: 'quantity', kind: 'strength' },
      {
        key: 'failedIn',
        label: 'Failure location',
        as: 'choice',
        options: [
          word('substrate', 'the substrate'),
          word('glue', 'the adhesive'),
          word('between', 'between layers'),
          word('unknown', 'unknown'),
        ],
      },
    ],
  },
  scratch: {
    title: 'Scratch test',
    source: 'Common practice: draw a nail over the surface',
    begins: { result: null },
    fields: [
      {
        key: 'result',
        label: 'Result',
        as: 'choice',
        options: [word('firm', 'firm'), word('scores', 'scores'), word('dusts', 'dusts'), word('crumbles', 'crumbles')],
      },
    ],
  },
  air: {
    title: 'Ambient conditions',
    source: 'Measure within 12 hours of the pour. Assess, Prep, Pour and Cure use this reading.',
    begins: { airTempC: null, relativeHumidity: null, surfaceTempC: null, airSpeedMPerS: 0 },
    fields: [
      { key: 'airTempC', label: 'Air temperature', as: 'quantity', kind: 'temperature' },
      { key: 'relativeHumidity', label: 'Relative humidity', as: 'share' },
      { key: 'surfaceTempC', label: 'Floor temperature', as: 'quantity', kind: 'temperature', optional: true },
      { key: 'airSpeedMPerS', label: 'Air speed', as: 'quantity', kind: 'speed', optional: true, hint: '0 for still air' },
    ],
  },
  'floor-deflection': {
    title: 'Joist deflection',
    source: 'IRC R301.7, L/360; stone L/720. Not a structural check.',
    begins: {
      spanM: null,
      joistWidthM: 0.0381,
      joistDepthM: null,
      spacingM: 0.4064,
      modulusPa: 11.03e9,
      liveLoadPa: 1915,
      deadLoadPa: 479,
    },
    fields: [
      { key: 'spanM', label: 'Span', as: 'quantity', kind: 'length' },
      { key: 'joistDepthM', label: 'Joist depth', as: 'quantity', kind: 'depth' },
      { key: 'joistWidthM', label: 'Joist width', as: 'quantity', kind: 'depth' },
      { key: 'spacingM', label: 'Spacing on center', as: 'quantity', kind: 'length' },
      { key: 'modulusPa', label: 'Modulus E', as: 'quantity', kind: 'strength', hint: 'typical 1,600,000 psi' },
      { key: 'liveLoadPa', label: 'Live load', as: 'quantity', kind: 'load' },
      { key: 'deadLoadPa', label: 'Dead load', as: 'quantity', kind: 'load' },
    ],
  },
  'surface-look': {
    title: 'Visual inspection',
    source: 'ASTM F710: clean, smooth, sound',
    begins: { is: [] },
    fields: [
      {
        key: 'is',
        label: 'Conditions',
        as: 'choices',
        options: [
          word('sound-clean', 'sound and clean'),
          word('dusty', 'dusty'),
          word('glossy', 'glossy'),
          word('oily', 'oil or grease'),
          word('waxed', 'waxed'),
          word('painted', 'painted'),
          word('curing-compound', 'curing compound'),
          word('efflorescence', 'efflorescence'),
          word('rough', 'rough'),
        ],
      },
    ],
  },
  lab: {
    title: 'Lab result',
    source: '29 CFR 1926.1101(k); 40 CFR 745: an accredited lab or certified inspector',
    begins: { question: 'asbestos', layerId: null, state: 'sent', lab: '', sample: '', resultOn: null, dueOn: null },
    fields: [],
  },
};

/** The kinds in order of work. */
export const TEST_KINDS = Object.keys(TEST_FORMS) as FloorTestKind[];

/** The reading itself: cleared for the next place, while the rest stays. */
export const READING_KEYS: Readonly<Partial<Record<FloorTestKind, readonly string[]>>> = {
  'slab-humidity': ['relativeHumidity', 'slabTempC'],
  'moisture-dish': ['massBeforeG', 'massAfterG'],
  'drop-absorption': ['seconds'],
  'surface-ph': ['ph'],
  'pull-off': ['stressPa'],
  scratch: ['result'],
};

/** A test's own values without its stamps, for editing. */
export function valuesOf(test: FloorTest): Record<string, unknown> {
  const { id: _id, takenAt: _takenAt, by: _by, point: _at, note: _note, kind: _kind, ...values } = test;
  return values;
}
