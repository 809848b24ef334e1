/** A pour over time, in minutes: who works and who waits in one simulation, and when each batch is placed in all simulations. */
import type { Bar } from '../pour/crew-bench.ts';
import type { Spread } from '../pour/chance.ts';
import { minuteTicks, scaleX, type Scale } from './datum.ts';
import { boxMark, groupMark, hatchMark, lineMark, ringMark } from './ink.ts';
import { startSheet, type LabelSheet } from './labels.ts';
import { letters } from './lettering.ts';
import { boxRing } from './ring-clip.ts';
import type { Drawing, Mark } from './marks.ts';
import { SANS_BOLD } from './type-metrics.ts';

const ROW_PX = 26;
const BAR_PX = 12;
const NAMES_PX = 104;
const AXIS_PX = 34;

export interface CrewTimelineInput {
  readonly widthPx: number;
  readonly bars: readonly Bar[];
  readonly finishMin: number;
}

const NAMES = { mixer: 'mixing', carrier: 'carrying', cart: 'cart', spreader: 'spreading' } as const;
/** Waiting is drawn as an empty bar and work as a filled one. A cart waits while it is being filled. */
const isWait = (bar: Bar): boolean => bar.doing === 'hold' || bar.doing === 'wait' || (bar.actor === 'cart' && bar.doing === 'scrape');

/** Minutes below the rows, labeled every 5, 10 or 20 minutes by the length of the pour where the labels fit. */
function axis(scale: Scale, y: number, sheet: LabelSheet): Mark[] {
  const every = scale.to > 60 ? 20 : scale.to > 25 ? 10 : 5;
  return [
    lineMark([scale.x0, y, scale.x1, y], { pen: 'seen' }),
    ...minuteTicks(scale.to)
      .filter((tick) => tick.value % every === 0)
      .flatMap((tick) => {
        const x = scaleX(scale, tick.value);
        return [
          lineMark([x, y, x, y + 7], { pen: 'thin' }),
          ...letters(sheet, { x, y: y + 24, text: tick.value === 0 ? '0 min' : String(tick.value), anchor: 'middle' }),
        ];
      }),
  ];
}

/** One simulation: one row per person or cart, with work filled and waiting empty. */
export function crewTimeline({ widthPx, bars, finishMin }: CrewTimelineInput): Drawing {
  const scale: Scale = { from: 0, to: Math.max(finishMin, 1), x0: NAMES_PX, x1: widthPx - 22, isLog: false };
  const order = ['mixer', 'carrier', 'cart', 'spreader'] as const;
  const rows = order.flatMap((actor) =>
    [...new Set(bars.filter((b) => b.actor === actor).map((b) => b.index))].sort((a, b) => a - b).map((index) => ({ actor, index })),
  );
  const floor = rows.length * ROW_PX + 4;
  const sheet = startSheet({ x: -2, y: 0, width: widthPx + 2, height: floor + AXIS_PX });
  const marks = rows.flatMap(({ actor, index }, row): Mark[] => {
    const y = row * ROW_PX + 6;
    const actorBars = bars.filter((b) => b.actor === actor && b.index === index);
    const isNumbered = rows.filter((r) => r.actor === actor).length > 1;
    const name = isNumbered ? `${NAMES[actor]} ${index + 1}` : NAMES[actor];
    const boxes = actorBars
      .filter((b) => b.toMin - b.fromMin > 1e-9)
      .map((b) => ({
        bar: b,
        box: { x: scaleX(scale, b.fromMin), y, width: scaleX(scale, b.toMin) - scaleX(scale, b.fromMin), height: BAR_PX },
      }));
    const work = boxes.filter(({ bar }) => !isWait(bar));
    const waits = boxes.filter(({ bar }) => isWait(bar));
    return [
      ...letters(sheet, { x: 0, y: y + BAR_PX, text: name }),
      lineMark([scale.x0, y + BAR_PX, scale.x1, y + BAR_PX], { pen: 'witness', ink: 'line' }),
      groupMark(`row:${actor}-${index}`, '', [
        ...(work.length === 0
          ? []
          : [
              hatchMark(
                work.map(({ box }) => boxRing(box)),
                'prep',
                'ink',
              ),
            ]),
        ...work.map(({ box }) => boxMark(box, { pen: 'thin' })),
        ...waits.map(({ box }) => boxMark(box, { pen: 'thin', dash: 'not-yet' })),
      ]),
    ];
  });
  return { width: widthPx, height: floor + AXIS_PX, marks: [...marks, ...axis(scale, floor, sheet)] };
}

export interface PlacementBandsInput {
  readonly widthPx: number;
  readonly heightPx: number;
  /** By batch, from the first. */
  readonly placedMin: readonly Spread[];
}

/** All simulations: when each batch is placed, as an 80% band with a line at the median. */
export function placementBands({ widthPx, heightPx, placedMin }: PlacementBandsInput): Drawing {
  const last = Math.max(1, ...placedMin.map((s) => s.p90));
  const scale: Scale = { from: 0, to: last, x0: NAMES_PX, x1: widthPx - 22, isLog: false };
  const floor = heightPx - AXIS_PX;
  const count = Math.max(1, placedMin.length);
  const yOf = (batch: number): number => 14 + ((floor - 22) * (batch - 1)) / Math.max(1, count - 1);
  const along = (pick: (s: Spread) => number): number[] => placedMin.flatMap((s, i) => [scaleX(scale, pick(s)), yOf(i + 1)]);
  const early = along((s) => s.p10);
  const late = placedMin
    .map((s, i) => [scaleX(scale, s.p90), yOf(i + 1)] as const)
    .reverse()
    .flat();
  const band = [...early, ...late];
  const sheet = startSheet({ x: -2, y: 0, width: widthPx + 2, height: heightPx });
  return {
    width: widthPx,
    height: heightPx,
    marks: [
      ...letters(sheet, { x: 0, y: 20, text: 'batch 1', face: SANS_BOLD }),
      ...(count > 1 ? letters(sheet, { x: 0, y: floor - 4, text: `batch ${count}`, face: SANS_BOLD }) : []),
      ...(placedMin.length > 1
        ? [
            groupMark('band', 'batch placed, 80% likely', [hatchMark([band], 'wall'), ringMark(band, { pen: 'thin' })]),
            lineMark(
              along((s) => s.p50),
              { pen: 'cut' },
            ),
          ]
        : []),
      ...axis(scale, floor, sheet),
    ],
  };
}
