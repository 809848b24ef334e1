/** Pours of one hall and their logs. */
import { type MarkedState, pourEventSchema, pourSchema, type Pour, type PourEvent } from '../../../shared-core/book/pour-record.ts';
import { storedLayout } from '../../../shared-core/pour/stored-layout.ts';
import { sampleAt } from '../../sample-at.ts';
import { powder } from '../substrate/a-floor.ts';
import { bay, laidOut, rectangle } from './floors.ts';
import { points } from '../../outlines.ts';

const sampleMaterial = sampleAt('2026-05-12T12:00:00Z').materials.find((m) => m.powder !== null);
if (sampleMaterial === undefined) throw new Error('The sample has a product.');

/** Areas are checked against the rectangle: 4 by 3 m in three lanes, two batches per lane, 2 m² per batch. */
export const LAYOUT = laidOut([bay('room-hall', rectangle(4, 3, 3))], 0.02, 'back-and-forth', 2);
export const OUTLINE = points('0,0 4,0 4,3 0,3');
const START = Date.parse('2026-05-12T14:00:00Z');
export const instantOf = (min: number): string => new Date(START + min * 60_000).toISOString();

type PourPart = Partial<{ lift: number; liftsPlanned: number; isRest: boolean; startMin: number; typedMin: number }>;

export function pourOf(id: string, part: PourPart = {}): Pour {
  const { lift = 1, liftsPlanned = 1, isRest = false, startMin = 0, typedMin = startMin } = part;
  return pourSchema.parse({
    id,
    createdAt: instantOf(typedMin),
    changedAt: instantOf(typedMin),
    deletedAt: null,
    jobId: 'job-1',
    roomIds: ['room-hall'],
    lift,
    materialId: 'powder-1',
    startedAt: instantOf(startMin),
    finishedAt: instantOf(startMin + 60),
    bagsOnSite: 14,
    bagsPlanned: 12,
    fromPaper: typedMin !== startMin,
    notes: '',
    asPoured: {
      rooms: [
        {
          roomId: 'room-hall',
          name: 'Hall',
          lift,
          liftsPlanned,
          plan: { outline: OUTLINE, holes: [], openings: [] },
          depth: { meanM: 0.01, deepestM: 0.01 },
          isRest,
        },
      ],
      layout: storedLayout(LAYOUT),
      material: { ...sampleMaterial, powder: powder() },
      bagYieldM3: 0.01,
      lossShare: 0.05,
      minThicknessM: 0.003,
      plannedTempC: 20,
    },
  });
}

export class Log {
  readonly events: PourEvent[] = [];
  constructor(readonly pourId = 'pour-1') {}
  add(min: number, event: Record<string, unknown>): this {
    const seq = this.events.length + 1;
    this.events.push(
      pourEventSchema.parse({ id: `${this.pourId}-${seq}`, pourId: this.pourId, seq, instant: instantOf(min), estimated: false, ...event }),
    );
    return this;
  }
  place(...batches: number[]): this {
    for (const batch of batches) this.add(batch * 4, { kind: 'placed', batch, roomId: 'room-hall', lane: null, bags: 2 });
    return this;
  }
  lane(lane: number, min: number): this {
    return this.add(min, { kind: 'lane-finished', roomId: 'room-hall', lane });
  }
  mark(min: number, state: MarkedState, outline: string, estimated = false): this {
    return this.add(min, { kind: 'marked', roomId: 'room-hall', state, outline: points(outline), by: 'RT', why: '', estimated });
  }
  finish(min: number, floor: 'whole' | 'partly' | null = null): this {
    return this.add(min, { kind: 'finished', bagsLeft: 0, floor });
  }
}

function shifted(lane: ReturnType<typeof rectangle>[number], yM: number): ReturnType<typeof rectangle>[number] {
  return lane.map((region) => ({ ...region, outline: region.outline.map((p) => ({ xM: p.xM, yM: p.yM + yM })) }));
}

export const withLayout = (pour: Pour, layout: typeof LAYOUT): Pour => ({
  ...pour,
  asPoured: { ...pour.asPoured, layout: storedLayout(layout) },
});

/** The layout of the rest after three batches: half of lane 2, and lane 3. */
export const REST = laidOut(
  [
    bay(
      'room-hall',
      [rectangle(2, 1, 1)[0] ?? [], rectangle(4, 1, 1)[0] ?? []].map((lane, i) => shifted(lane, i === 0 ? 1 : 2)),
    ),
  ],
  0.02,
  'back-and-forth',
  2,
);
