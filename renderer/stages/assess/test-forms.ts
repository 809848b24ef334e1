/** How each test is entered: its fields, what it begins with, and how it reads in a line. */
import type { FloorTest, FloorTestKind } from '../../../shared-core/book/layer.ts';
import type { QuantityKindName } from '../../parts/quantity-kinds.ts';

type Base = { readonly key: string; readonly label: string; readonly hint?: string; readonly optional?: boolean };
/** A field of a test's form. Values are SI; `share` is typed as a percent. */
export type TestField =
  | (Base & { readonly as: 'quantity'; readonly kind: QuantityKindName })
  | (Base & { readonly as: 'number'; readonly unit: string; readonly least: number; readonly most: number })
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

/** Dish and dome of the usual kit, the ring between them 0.44486 sq ft; typed over where the kit differs. */
const DOME_M2 = 0.04516;
const DISH_M2 = 0.003831;

const word = (value: string, text: string) => ({ value, word: text });

export const TEST_FORMS: Readonly<Record<FloorTestKind, TestForm>> = {
  'slab-humidity': {
    title: 'Humidity in the slab',
    source: 'ASTM F2170',
    begins: { relativeHumidity: null, depthM: null, slabThicknessM: null, dryingSides: 1, settledHours: 24, slabTempC: null },
    fields: [
      { key: 'relativeHumidity', label: 'Humidity read', as: 'share' },
      { key: 'slabThicknessM', label: 'Slab thickness', as: 'quantity', kind: 'depth', optional: true },
      { key: 'depthM', label: 'Probe depth', as: 'quantity', kind: 'depth', hint: '40 % of a slab drying from one side, 20 % from two' },
      { key: 'dryingSides', label: 'Dries from', as: 'choice', options: [word('1', 'one side'), word('2', 'two sides')] },
      { key: 'settledHours', label: 'Settled for', as: 'number', unit: 'h', least: 0, most: 1000 },
      { key: 'slabTempC', label: 'Slab temperature', as: 'quantity', kind: 'temperature', optional: true },
    ],
  },
  'moisture-dish': {
    title: 'Calcium chloride dish',
    source: 'ASTM F1869: never over leveling compound or gypsum',
    begins: { massBeforeG: null, massAfterG: null, dishAreaM2: DISH_M2, domeAreaM2: DOME_M2, hours: 72, overLayerId: null },
    fields: [
      { key: 'massBeforeG', label: 'Dish before', as: 'number', unit: 'g', least: 0.1, most: 2000 },
      { key: 'massAfterG', label: 'Dish after', as: 'number', unit: 'g', least: 0.1, most: 2000 },
      { key: 'hours', label: 'Under the dome', as: 'number', unit: 'h', least: 1, most: 400 },
      { key: 'domeAreaM2', label: 'Dome covers', as: 'quantity', kind: 'area' },
      { key: 'dishAreaM2', label: 'Dish covers', as: 'quantity', kind: 'area' },
      { key: 'overLayerId', label: 'It stood on', as: 'layer', optional: true },
    ],
  },
  'wood-moisture': {
    title: 'Moisture of the timber',
    source: 'pins, several places; NWFA',
    begins: { part: 'boards', readings: null },
    fields: [
      {
        key: 'part',
        label: 'Where',
        as: 'choice',
        options: [word('boards', 'boards'), word('structure', 'joists, structure'), word('flooring', 'new flooring')],
      },
      { key: 'readings', label: 'Readings', as: 'shares', hint: 'percent, one after another: 10.5 11 9.8' },
    ],
  },
  'drop-absorption': {
    title: 'Drops of water',
    source: 'ASTM F3191: gone within a minute is porous',
    begins: { seconds: null, watchedSeconds: 60 },
    fields: [
      {
        key: 'seconds',
        label: 'Gone after',
        as: 'number',
        unit: 's',
        least: 0,
        most: 3600,
        optional: true,
        hint: 'left empty: still there',
      },
      { key: 'watchedSeconds', label: 'Watched for', as: 'number', unit: 's', least: 1, most: 3600 },
    ],
  },
  'surface-ph': {
    title: 'Alkalinity',
    source: 'ASTM F710: a puddle, a minute, the paper',
    begins: { ph: null },
    fields: [{ key: 'ph', label: 'pH', as: 'number', unit: '', least: 0, most: 14 }],
  },
  'pull-off': {
    title: 'Pull-off strength',
    source: 'ASTM C1583',
    begins: { stressPa: null, failedIn: 'substrate' },
    fields: [
      { key: 'stressPa', label: 'Came off at', as: 'quantity', kind: 'strength' },
      {
        key: 'failedIn',
        label: 'Broke in',
        as: 'choice',
        options: [word('substrate', 'the floor'), word('glue', 'the glue'), word('between', 'between'), word('unknown', 'not seen')],
      },
    ],
  },
  scratch: {
    title: 'Scratch',
    source: 'common practice: a hard point drawn over it',
    begins: { result: 'firm' },
    fields: [
      {
        key: 'result',
        label: 'The surface',
        as: 'choice',
        options: [word('firm', 'stays firm'), word('scores', 'scores'), word('dusts', 'dusts'), word('crumbles', 'crumbles')],
      },
    ],
  },
  air: {
    title: 'Air and floor',
    source: 'read within twelve hours of the pour',
    begins: { airTempC: null, relativeHumidity: null, surfaceTempC: null, airSpeedMPerS: 0 },
    fields: [
      { key: 'airTempC', label: 'Air', as: 'quantity', kind: 'temperature' },
      { key: 'relativeHumidity', label: 'Humidity', as: 'share' },
      { key: 'surfaceTempC', label: 'Floor', as: 'quantity', kind: 'temperature', optional: true },
      { key: 'airSpeedMPerS', label: 'Draft', as: 'quantity', kind: 'speed', optional: true, hint: '0 for still air' },
    ],
  },
  'floor-bounce': {
    title: 'Stiffness of the joists',
    source: 'IRC R301.7, L/360: not a structural check',
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
      { key: 'spacingM', label: 'Joists every', as: 'quantity', kind: 'length' },
      { key: 'modulusPa', label: 'Stiffness E', as: 'quantity', kind: 'strength', hint: 'typical 1,600,000 psi' },
      { key: 'liveLoadPa', label: 'Live load', as: 'quantity', kind: 'load' },
      { key: 'deadLoadPa', label: 'Dead load', as: 'quantity', kind: 'load' },
    ],
  },
  'surface-look': {
    title: 'A look at the surface',
    source: 'common practice',
    begins: { is: [] },
    fields: [
      {
        key: 'is',
        label: 'What is seen',
        as: 'choices',
        options: [
          word('sound-clean', 'sound and clean'),
          word('dusty', 'dusty'),
          word('glossy', 'glossy'),
          word('oily', 'oily'),
          word('waxed', 'waxed'),
          word('painted', 'painted'),
          word('curing-compound', 'curing compound'),
          word('efflorescence', 'efflorescence'),
          word('rough', 'rough'),
        ],
      },
    ],
  },
  laboratory: {
    title: 'Laboratory’s answer',
    source: '29 CFR 1926.1101(k); 40 CFR 745: an accredited laboratory or certified inspector',
    begins: { question: 'asbestos', layerId: null, state: 'sent', laboratory: '', sample: '', resultOn: null, dueOn: null },
    fields: [],
  },
};

/** The kinds in the order one walks through them. */
export const TEST_KINDS = Object.keys(TEST_FORMS) as FloorTestKind[];

/** What one reading of a kind is: cleared when the next place is read, while the rest stays as set. */
export const READING_KEYS: Readonly<Partial<Record<FloorTestKind, readonly string[]>>> = {
  'slab-humidity': ['relativeHumidity', 'slabTempC'],
  'moisture-dish': ['massBeforeG', 'massAfterG'],
  'drop-absorption': ['seconds'],
  'surface-ph': ['ph'],
  'pull-off': ['stressPa'],
  scratch: [],
};

/** A test's own values without its stamps, to be edited. */
export function valuesOf(test: FloorTest): Record<string, unknown> {
  const { id: _id, takenAt: _takenAt, by: _by, at: _at, note: _note, kind: _kind, ...values } = test;
  return values;
}
