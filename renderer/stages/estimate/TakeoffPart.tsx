import type { PrimerNeed } from '../../../shared-core/material/primer.ts';
import type { RoomTakeoff } from '../../../shared-core/material/takeoff.ts';
import { Reason, type ReasonWhy } from '../../parts/Reason.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { TypicalCrew } from '../../parts/TypicalCrew.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import type { FigureSource } from '../../../shared-core/book/material.ts';
import type { Span } from '../../../shared-core/material/sheet.ts';
import { surfaceHours } from '../../../shared-core/material/crew-hours.ts';
import { batchCountWords } from '../../../shared-core/price/batch-words.ts';
import { taskName, taskReasonWords } from '../../../shared-core/price/hours-words.ts';
import { liftNoteWords, overfilledWords, primingWords, weightWords } from '../../../shared-core/price/takeoff-words.ts';
import { formatArea } from '../../../shared-core/measure/area.ts';
import { formatCoverage } from '../../../shared-core/measure/coverage.ts';
import { formatDensity } from '../../../shared-core/measure/density.ts';
import { formatDuration, formatWork } from '../../../shared-core/measure/duration.ts';
import { formatDepth, formatLength } from '../../../shared-core/measure/length-format.ts';
import { formatArealMass, formatMass } from '../../../shared-core/measure/mass.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { formatLoad } from '../../../shared-core/measure/pressure.ts';
import type { UnitSystem } from '../../../shared-core/measure/unit-system.ts';
import { formatLiquid, formatVolume, formatWaterLimits } from '../../../shared-core/measure/volume.ts';

/** Materials of the room other than bags, each with its reason. */
export function TakeoffPart({ takeoff, typicalCrew }: { readonly takeoff: RoomTakeoff; readonly typicalCrew: boolean }) {
  const { units, locale } = useMeasure();
  const rows = takeoffRows(takeoff, { units, locale });
  if (rows.length === 0) return null;
  return (
    <BlockPart heading="Quantities">
      <dl className="figures">
        {rows.map(({ name, value, why }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>
              <Reason why={why}>{value}</Reason>
            </dd>
          </div>
        ))}
      </dl>
      {typicalCrew && <TypicalCrew />}
      {takeoff.weight !== null && <p className="small">{weightWords(takeoff.weight, units, locale)}</p>}
    </BlockPart>
  );
}

/** Explanations of a room's takeoff, one row per material. */
interface TakeoffRow {
  readonly name: string;
  readonly value: string;
  readonly why: ReasonWhy;
}

const FROM: Readonly<Record<FigureSource, string>> = {
  bag: 'from the bag',
  typical: 'typical (not from the data sheet)',
  measured: 'weighed by this business',
};

type Say = { readonly units: UnitSystem; readonly locale: string };
type Rows = (taken: RoomTakeoff, say: Say) => TakeoffRow[];

const row = (
  name: string,
  value: string,
  why: Omit<ReasonWhy, 'figureName' | 'range'> & { figureName?: string; range?: ReasonWhy['range'] },
): TakeoffRow => ({
  name,
  value,
  why: { figureName: name, range: null, ...why },
});

const liftRows: Rows = ({ lifts, sheet }, { units, locale }) => {
  if (lifts === null || sheet === null) return [];
  const wait = lifts.waitHours;
  const hours = (n: number): string => formatDuration(n * 3600, locale);
  const span = lifts.extended && sheet.liftExtendedM !== null ? sheet.liftExtendedM : sheet.liftM;
  return [
    row('Lifts', wait === null ? String(lifts.count) : `${lifts.count}, ${hours(wait.value.least)} to ${hours(wait.value.most)} apart`, {
      inputs: [
        { name: 'Max depth of one lift', value: formatDepth(Math.max(lifts.lowestMostM, lifts.eachMostM), units, locale) },
        {
          name: 'Allowed lift thickness',
          value: `${formatDepth(span.value.least, units, locale)} to ${formatDepth(span.value.most, units, locale)}`,
          source: FROM[span.source],
        },
        ...(wait === null
          ? []
          : [{ name: 'Wait between lifts', value: `${hours(wait.value.least)} to ${hours(wait.value.most)}`, source: FROM[wait.source] }]),
      ],
      formula:
        lifts.notes.length > 0
          ? lifts.notes.map((note) => liftNoteWords(note, units, locale)).join(' ')
          : 'The deepest point is within the maximum lift, so one lift is enough.',
      source: 'material data sheet',
      more:
        wait === null
          ? undefined
          : 'The wait applies at the data sheet’s temperature. A colder room takes longer. Prime between lifts where the data sheet says so.',
    }),
  ];
};

const waterRows: Rows = ({ water, sheet, bags }, { units, locale }) => {
  if (water === null || sheet === null || bags === null) return [];
  const liquid = (l: number): string => formatLiquid(l, units, locale);
  const limits = (of: Span): string => formatWaterLimits(of, units, locale).span;
  const perBag = { name: 'Mix water per bag', value: limits(sheet.waterL.value), source: FROM[sheet.waterL.source] };
  const caution = 'Never exceed the data sheet’s maximum. Too much water makes the floor weak, dusty, and cracked.';
  return [
    row('Water per batch', limits(water.perBatchL), {
      inputs: [perBag, { name: 'Bags per batch', value: formatNumber(water.bagsPerBatch, { most: 2 }, locale) }],
      formula: 'Mix water per bag × bags per batch.',
      source: 'material data sheet',
      more: caution,
    }),
    row('Total water', `${liquid(water.totalL.least)} to ${liquid(water.totalL.most)}`, {
      inputs: [perBag, { name: 'Bags', value: String(bags.quotedBags) }],
      formula: 'Mix water per bag × bags quoted.',
      source: 'material data sheet',
    }),
    row('Buckets to measure', batchCountWords(water.batches, locale), {
      inputs: [
        { name: 'Bags', value: String(bags.quotedBags) },
        { name: 'Bags per batch', value: formatNumber(water.bagsPerBatch, { most: 2 }, locale) },
        { name: 'Mixed batch', value: formatVolume(water.batchM3, units, locale) },
      ],
      formula: '1 bucket of measured water per batch.',
      source: 'common practice, no source',
      ...(water.overfilledBucketL === null ? {} : { more: overfilledWords({ ...water, bucketL: water.overfilledBucketL }, units, locale) }),
    }),
  ];
};

const primerRows: Rows = ({ primer, liftPrimer, primings: all, room }, { units, locale }) => {
  if (primer === null) return [];
  const liquid = (l: number): string => formatLiquid(l, units, locale);
  const primerRow = (name: string, primer: PrimerNeed, primings: number) =>
    row(name, `${liquid(primer.neatL * primings)}, ${primingWords(Array.from({ length: primings }, () => primer.coats))}`, {
      inputs: [
        { name: 'Area', value: formatArea(room.areaM2, units, locale) },
        { name: 'Coverage per coat', value: formatCoverage(primer.coverageM2PerL, units, locale) },
        { name: 'Dilution (water : primer)', value: formatNumber(primer.waterParts, { most: 2 }, locale) },
        ...(primings > 1 ? [{ name: 'Lifts', value: formatNumber(primings, { most: 0 }, locale) }] : []),
        { name: 'Total spread', value: liquid(primer.spreadL * primings) },
        { name: 'Water added', value: liquid(primer.waterL * primings) },
      ],
      formula: `Area × coats${primings > 1 ? ' × lifts' : ''} ÷ coverage. Primer is the undiluted part.`,
      source: 'primer data sheet for this substrate, by the water drop test or the layers',
      more: `A coat dries ${formatDuration(primer.dryHours.least * 3600, locale)} at least. Pour within ${formatDuration(primer.dryHours.most * 3600, locale)}.`,
    });
  if (liftPrimer === null) return [primerRow('Primer', primer, 1)];
  if (liftPrimer.substrate === primer.substrate) return [primerRow('Primer', primer, all)];
  return [primerRow('Primer, first lift', primer, 1), primerRow('Primer, later lifts', liftPrimer, all - 1)];
};

const weightRows: Rows = ({ weight, room, sheet, aggregate }, { units, locale }) => {
  if (weight === null || room.depths === null || sheet === null) return [];
  const heavy = (kg: number): string => formatArealMass(kg, units, locale);
  return [
    row('Weight added', `${heavy(weight.meanKgM2)} on average`, {
      inputs: [
        { name: 'Average depth', value: formatDepth(room.depths.meanM, units, locale) },
        { name: 'Max depth', value: formatDepth(room.depths.mostM, units, locale) },
        {
          name: 'Fresh density',
          value: formatDensity(aggregate?.densityKgM3 ?? sheet.densityFreshKgM3.value, units, locale),
          source: FROM[sheet.densityFreshKgM3.source],
        },
        { name: 'Removed before, on average', value: heavy(weight.removedKgM2), source: 'typical densities of the layers' },
        { name: 'Removed over the whole room', value: heavy(weight.removedAllOverKgM2) },
        ...(weight.allowedPa === null ? [] : [{ name: 'Allowance entered', value: formatLoad(weight.allowedPa, units, locale) }]),
      ],
      formula: 'Depth × fresh density. It is heaviest when wet.',
      source: 'data sheet and readings',
      range: {
        leastText: heavy(weight.meanKgM2),
        mostText: heavy(weight.mostKgM2),
        value: null,
        words: 'From the average to the deepest point.',
      },
      more: weightWords(weight, units, locale),
    }),
  ];
};

const aggregateRows: Rows = ({ aggregate, bags, sheet }, { units, locale }) =>
  aggregate === null || bags === null || sheet === null
    ? []
    : [
        row('Aggregate', formatMass(aggregate.totalKg, units, locale), {
          inputs: [
            { name: 'Per bag', value: formatMass(aggregate.aggregateKg, units, locale) },
            { name: 'Bags mixed with it', value: formatNumber(bags.quotedBags * aggregate.bagShare, { most: 1 }, locale) },
            { name: 'Yield with aggregate', value: formatVolume(aggregate.mixM3, units, locale) },
          ],
          formula: 'The maximum on the data sheet by weight of powder. Aggregate adds the volume it displaces. The cap has none.',
          source: 'material data sheet',
        }),
      ];

const sundryRows: Rows = ({ room, damM, dams, disposalKg, betweenLiftsM2 }, { units, locale }) => {
  const length = (m: number): string => formatLength(m, units, locale);
  const area = (m2: number): string => formatArea(m2, units, locale);
  const from = (name: string, value: string, formula: string, source: string, inputs: ReasonWhy['inputs'] = []): TakeoffRow =>
    row(name, value, { inputs: [{ name: 'Measured', value }, ...inputs], formula, source });
  return [
    ...(room.perimeterM > 0 ? [from('Perimeter isolation strip', length(room.perimeterM), 'All walls and cutouts.', 'the plan')] : []),
    ...(damM > 0 ? [from('Dams', `${length(damM)}, ${dams}`, 'The widths of the openings that are dammed.', 'the plan')] : []),
    ...(room.crackM > 0 ? [from('Crack filler', length(room.crackM), 'Dormant cracks and joints, and gaps.', 'marks on the plan')] : []),
    ...(room.reinforceM2 > 0
      ? [from('Reinforcement', area(room.reinforceM2), 'Over wood.', 'common practice; the data sheet comes first')]
      : []),
    ...(room.sealM2 > 0 ? [from('Sealer', area(room.sealM2), 'The floor stays bare and is sealed.', 'the flooring chosen')] : []),
    ...(room.abradeM2 > 0
      ? [from('To abrade', area(room.abradeM2), 'What Prep abrades, or cleans by machine.', 'the prep checklist')]
      : []),
    ...(betweenLiftsM2 > 0
      ? [
          from(
            'To abrade between lifts',
            area(betweenLiftsM2),
            'The floor once before each later lift.',
            'common practice; the data sheet comes first',
          ),
        ]
      : []),
    ...(room.grind.areaM2 > 0
      ? [
          from(
            `${room.cut.nounFirst} area`,
            area(room.grind.areaM2),
            'Where the floor is above the finish elevation minus the minimum thickness.',
            'the survey',
            [{ name: `Volume ${room.cut.done} off`, value: formatVolume(room.grind.volumeM3, units, locale) }],
          ),
        ]
      : []),
    ...(disposalKg > 0
      ? [from('Disposal weight', formatMass(disposalKg, units, locale), 'Layers removed, at typical densities.', 'the layers on record')]
      : []),
  ];
};

const hourRows: Rows = (takeoff, { units, locale }) => {
  const { hours } = takeoff;
  const lasts = (h: number): string => formatWork(h, locale);
  const own = hours.reduce((sum, task) => sum + task.ownHours, 0);
  const helpers = hours.reduce((sum, task) => sum + task.helperHours, 0);
  const byArea = surfaceHours(takeoff);
  if (own + helpers === 0) return [];
  return [
    row('Hours', helpers > 0 ? `${lasts(own)}, helpers ${lasts(helpers)}` : lasts(own), {
      inputs: [
        ...hours.map((task) => ({
          name: taskName(task),
          value: lasts(task.ownHours + task.helperHours),
          source: taskReasonWords(task.why, units, locale),
        })),
        ...(byArea > 0
          ? [
              {
                name: 'Prepare the surface',
                value: lasts(byArea),
                source: 'priced by area, not in these hours; counted in the days on site',
              },
            ]
          : []),
      ],
      formula: 'All tasks priced by the hour, owner and helpers.',
      source: hours.some((task) => task.source === 'simulated')
        ? 'the pour by its simulation; the rest typical, common practice'
        : 'typical times, common practice',
    }),
  ];
};

function takeoffRows(takeoff: RoomTakeoff, say: Say): TakeoffRow[] {
  return [liftRows, waterRows, aggregateRows, primerRows, sundryRows, weightRows, hourRows].flatMap((rows) => rows(takeoff, say));
}
