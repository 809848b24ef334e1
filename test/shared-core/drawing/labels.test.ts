/** Lettering of every drawing but the plan: apart, off the lines and on the drawing, over generated contents and sizes. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crewTimeline, placementBands } from '../../../shared-core/drawing/crew-timeline.ts';
import { cureRoomMarks, cureRowYs } from '../../../shared-core/drawing/cure-bars.ts';
import { curvesDrawing } from '../../../shared-core/drawing/curves.ts';
import { logTimeTicks, yearTicks } from '../../../shared-core/drawing/datum.ts';
import { hourStrip } from '../../../shared-core/drawing/hour-strip.ts';
import { houseDrawing, type HouseRoom } from '../../../shared-core/drawing/house.ts';
import { lineMark } from '../../../shared-core/drawing/ink.ts';
import { layersSection } from '../../../shared-core/drawing/layers-section.ts';
import { liftPicture } from '../../../shared-core/drawing/lift-picture.ts';
import type { PathMark } from '../../../shared-core/drawing/marks.ts';
import { pourClock } from '../../../shared-core/drawing/pour-clock.ts';
import { sectionDrawing } from '../../../shared-core/drawing/section.ts';
import { timeline } from '../../../shared-core/drawing/timeline.ts';
import { checkLabels, checkLeaders, textsOf } from './check-labels.ts';

const share = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const widths = fc.constantFrom(354, 390, 620, 844, 1024, 1440);
const RUNS = { numRuns: 40 };

const rect = (w: number, h: number) => [0, w, w, 0].map((xM, i) => ({ xM, yM: i < 2 ? 0 : h }));
const houseRooms = fc.array(
  fc.record({
    w: share(1.5, 7),
    h: share(1.5, 6),
    look: fc.constantFrom<HouseRoom['look'][]>('ours', 'now', 'plain', 'covered'),
    lines: fc.constantFrom<readonly string[]>([], ['Hall'], ['Family room', 'poured May 2026', '*oak, glued']),
    turnDeg: fc.constantFrom(0, 90),
    joint: fc.boolean(),
  }),
  { minLength: 1, maxLength: 5 },
);
const notes = fc.array(fc.tuple(fc.nat(4), share(0.02, 0.98), share(0.02, 0.98), fc.constantFrom('', 'crack, 2025', 'patched')), {
  maxLength: 6,
});

/** The lines of depths, places and tests in a section, and the trunk of the layers' names. */
const isUpright = ({ mark, group }: { readonly mark: PathMark; readonly group: string }): boolean =>
  mark.pen === 'thin' &&
  (group === '' || group === 'layers' || group.startsWith('test:')) &&
  mark.rings.some(({ xy: [ax, ay, bx, by], closed }) => !closed && ax === bx && ay !== by);

describe('the lettering of', () => {
  it('a house keeps clear', () => {
    const sizes = fc.constantFrom([960, 560], [620, 420], [354, 300], [354, 180]);
    fc.assert(
      fc.property(houseRooms, notes, sizes, fc.boolean(), fc.boolean(), (rooms, noted, [widthPx = 0, heightPx = 0], isChain, hasKey) => {
        let x = 0;
        const placed = rooms.map((r, i): HouseRoom => {
          const left = x + (r.turnDeg === 90 ? r.h : 0);
          x += r.turnDeg === 90 ? r.h : r.w;
          return {
            id: String(i),
            plan: { outline: rect(r.w, r.h), holes: [], openings: [], placedAt: { xM: left, yM: 0, turnDeg: r.turnDeg } },
            look: r.look,
            hatch: 'boards',
            lines: r.lines,
            label: '',
            ...(r.joint ? { joints: [{ from: { xM: r.w / 2, yM: 0 }, to: { xM: r.w / 2, yM: r.h } }] } : {}),
          };
        });
        const drawing = houseDrawing({
          widthPx,
          heightPx,
          rooms: placed,
          notes: noted.flatMap(([k, u, v, text], i) => {
            const r = rooms[k];
            return r === undefined
              ? []
              : [{ id: String(i), roomId: String(k), xM: u * r.w, yM: v * r.h, letter: 'ABCDEF'[i] ?? 'A', text }];
          }),
          hasDimensions: true,
          ...(isChain ? { dimensions: 'chain' } : {}),
          lengthText: (m) => `${Math.round(m * 100)} cm`,
          scale: { lengthM: 2, text: '2 m' },
          key: hasKey ? { ours: 'poured by us', now: 'in this job', plain: 'other rooms' } : null,
        });
        checkLabels(drawing);
        checkLeaders(drawing, ({ mark, group }) => group === 'dimension' && mark.pen === 'witness');
        for (const [i, [k]] of noted.entries())
          if (k < rooms.length)
            expect(
              textsOf(drawing).some(({ group }) => group === `note:${i}`),
              `the letter of note ${i}`,
            ).toBe(true);
      }),
      RUNS,
    );
  });

  it('a section keeps clear', () => {
    const floors = fc.array(share(-0.04, 0.02), { minLength: 3, maxLength: 9 });
    const at = fc.array(share(0.02, 0.98), { maxLength: 4 });
    const end = fc.record({
      words: fc.constantFrom('', 'oak', 'existing ceramic tile'),
      heightM: fc.option(share(-0.02, 0.02)),
      hatch: fc.constantFrom('stone' as const, 'cut' as const, null),
    });
    fc.assert(
      fc.property(floors, share(1, 14), at, at, widths, fc.constantFrom(54, 110, 170), end, end, fc.boolean(), (...parts) => {
        const [zs, lengthM, depths, places, widthPx, heightPx, start, finish, isGround] = parts;
        const edge = widthPx < 800 ? 18 : 150;
        const drawing = sectionDrawing({
          widthPx,
          heightPx,
          datumY: heightPx < 60 ? 27 : 56,
          x0: edge,
          x1: widthPx - edge,
          points: zs.map((floorM, i) => ({
            alongM: (lengthM * i) / (zs.length - 1),
            floorM,
            newFloorM: Math.max(0.004, floorM),
            ...(isGround ? { groundM: Math.min(floorM, 0) } : {}),
          })),
          units: 'us',
          exaggeration: null,
          start: { ...start, letter: 'A' },
          end: { ...finish, letter: 'A′' },
          depths: depths.map((t) => ({ alongM: t * lengthM, text: '1 3⁄16″' })),
          places: places.map((t) => ({ alongM: t * lengthM, text: 'the corner' })),
          floorWords: 'existing floor, heights exaggerated',
          grindWords: isGround ? '⅜″ ground off' : '',
          lineWords: 'new floor',
        });
        checkLabels(drawing);
        checkLeaders(drawing, isUpright);
      }),
      RUNS,
    );
  });

  it('a floor assembly keeps clear', () => {
    const layers = fc.array(
      fc.record({
        words: fc.constantFrom('Concrete', 'Floating plank, 2009: remove', '¾″ boards of 1926, on 2 × 10 joists: stay'),
        look: fc.constantFrom('panel' as const, 'concrete' as const, 'adhesive' as const, 'membrane' as const, 'joists' as const),
        thicknessM: fc.option(share(0.002, 0.2)),
        isHeld: fc.boolean(),
      }),
      { minLength: 1, maxLength: 6 },
    );
    const at = fc.array(share(0, 1), { maxLength: 4 });
    fc.assert(
      fc.property(layers, layers, share(0.05, 0.95), at, fc.nat(4), share(0.002, 0.05), widths, (...parts) => {
        const [first, second, split, depths, probed, belowM, widthPx] = parts;
        const lengthM = 6;
        const datumY = 40 + 23 * 5 + 70;
        const layersOf = (list: typeof first) => list.map((l, i) => ({ ...l, id: String(i), isRemoved: false }));
        const drawing = layersSection({
          widthPx,
          heightPx: datumY + 290,
          datumY,
          x0: widthPx < 800 ? 24 : 136,
          x1: widthPx - 40,
          lengthM,
          units: 'us',
          parts: [
            { fromM: 0, toM: lengthM * split, layers: layersOf(first) },
            { fromM: lengthM * split, toM: lengthM, layers: layersOf(second) },
          ],
          surface: [0, 0.3, 1].map((t, i) => ({ alongM: t * lengthM, belowM: i === 1 ? belowM : 0 })),
          depths: depths.map((t) => ({ alongM: t * lengthM, text: '1 3⁄16″' })),
          probes: Array.from({ length: probed }, (_, i) => ({
            id: String(i),
            alongM: ((i + 0.5) * lengthM) / probed,
            layerIndex: i,
            label: 'RH',
          })),
          lineWords: 'level',
          listY: 40,
          probeToY: datumY + 280,
        });
        checkLabels(drawing);
        checkLeaders(drawing, isUpright);
      }),
      RUNS,
    );
  });

  it('a cure schedule keeps clear', () => {
    const milestone = fc.record({
      likely: share(0, 40),
      before: share(0, 5),
      after: share(0, 9),
      promised: fc.array(share(0, 42), { maxLength: 2 }),
      isDone: fc.boolean(),
      isDrying: fc.boolean(),
    });
    const log = fc.record({
      temps: fc.array(share(4, 30), { maxLength: 20 }),
      assumedC: share(5, 28),
      assumedTo: share(0, 42),
      stood: fc.array(share(0, 20), { maxLength: 2 }),
    });
    fc.assert(
      fc.property(
        fc.array(milestone, { minLength: 1, maxLength: 4 }),
        log,
        share(0, 20),
        share(0, 30),
        widths,
        (ms, l, pouredAt, now, widthPx) => {
          const rows = {
            topY: 60,
            rowPx: 24,
            widthPx,
            scale: { from: 0, to: 42, x0: widthPx < 800 ? 226 : 456, x1: widthPx - (widthPx < 800 ? 18 : 40), isLog: false },
            now,
          };
          const room = {
            id: 'hall',
            pouredAt,
            milestones: ms.map((m, i) => ({
              ...m,
              id: String(i),
              earliest: m.likely - m.before,
              latest: m.likely + m.after,
              isLate: false,
              label: '',
            })),
            log: {
              readings: l.temps.map((tempC, i) => ({ day: pouredAt + i / 4, tempC })),
              assumedC: l.assumedC,
              assumedTo: l.assumedTo,
              assumedText: '68 °F assumed',
              leastC: 10,
              leastText: '50 °F',
              stoodStill: l.stood.map((d) => ({ from: pouredAt + d, to: pouredAt + d + 0.7 })),
            },
          };
          const x = rows.scale.x0 + ((rows.scale.x1 - rows.scale.x0) * now) / 42;
          const { bottom } = cureRowYs(room, rows);
          checkLabels({ width: widthPx, height: bottom + 12, marks: [lineMark([x, 60, x, bottom]), ...cureRoomMarks(room, rows)] });
        },
      ),
      RUNS,
    );
  });

  it('rows of times keep clear', () => {
    const texts = fc.constantFrom('4 h', '24 to 72 h', 'callback: hollow spot', 'poured');
    const spans = fc.array(fc.tuple(share(0, 1), share(0, 0.3), texts, fc.boolean()), { maxLength: 4 });
    fc.assert(
      fc.property(fc.array(fc.tuple(spans, spans, spans), { minLength: 1, maxLength: 4 }), widths, fc.boolean(), (rows, widthPx, isLog) => {
        const scale = isLog
          ? { from: 8, to: 61_000, x0: 150, x1: widthPx - 20, isLog }
          : { from: 2020, to: 2027, x0: 150, x1: widthPx - 20, isLog };
        const valueAt = (t: number): number => (isLog ? 8 * (61_000 / 8) ** Math.min(1, t) : 2020 + 7 * Math.min(1, t));
        const drawing = timeline({
          widthPx,
          datumY: 40,
          scale,
          ticks: isLog ? logTimeTicks(10, 60_000) : yearTicks(2020, 2027),
          rowPx: 56,
          now: isLog ? null : 2026.4,
          lineWords: isLog ? 'water in' : '',
          rows: rows.map(([ranges, moments, floors], i) => ({
            id: String(i),
            name: 'Hall',
            note: 'oak',
            ranges: ranges.map(([t, long, text, isTypical], k) => ({
              id: `${k}`,
              from: valueAt(t),
              to: valueAt(t + long),
              text,
              isTypical,
            })),
            moments: isLog
              ? []
              : moments.map(([t, , text, isLate], k) => ({ id: `${k}`, year: valueAt(t), state: 'done', lead: '3', text, isLate })),
            floors: isLog ? [] : floors.map(([t, long, , isAgreed]) => ({ from: valueAt(t), to: valueAt(t + long), isAgreed })),
          })),
        });
        checkLabels(drawing);
      }),
      RUNS,
    );
  });

  it('the hours of a pour day, the clock of the wet edge and a chart keep clear', () => {
    const hour = share(6, 20);
    fc.assert(
      fc.property(
        fc.tuple(hour, hour, hour, hour, hour),
        widths,
        share(5, 60),
        share(15, 30),
        (hours, widthPx, healingMinutes, letteringPx) => {
          const [a, b, c, d, e] = hours.sort((p, q) => p - q);
          checkLabels(
            hourStrip({
              widthPx,
              x0: 30,
              x1: widthPx - 30,
              datumY: 36,
              fromHour: 6,
              toHour: 20,
              clock: '12',
              now: c,
              preparing: { from: a, to: b, text: 'prep' },
              primed: { hour: b, text: 'primed 9 am' },
              dry: { hour: c, text: 'dry from 10:30 am' },
              pour: { from: c, to: d, text: 'pour 11 am' },
              latest: { hour: e, text: 'latest 3 pm', beyondText: 'primer too old' },
            }),
          );
          checkLabels(
            pourClock({
              widthPx,
              x0: 0,
              x1: widthPx - 20,
              ageMinutes: a,
              healingMinutes,
              coldWords: 'cold joint at 15 min',
              letteringPx: Math.round(letteringPx),
            }),
          );
          const curve = (k: number) => [0, 1, 2, 3].map((x) => ({ x, y: x * k }));
          checkLabels(
            curvesDrawing({
              widthPx,
              heightPx: 180,
              curves: [a, b, c].map((k, i) => ({ points: curve(k), pen: 'thin', dash: null, words: 'to grind', isStrong: i === 0 })),
              xLabels: hours.map((h) => ({ x: (h - 6) / 5, text: `${Math.round(h)} bags` })),
              pointerAtX: null,
              fromY: 0,
            }),
          );
        },
      ),
      RUNS,
    );
  });

  it('a lift to scale keeps clear, with its three depths', () => {
    const depth = fc.tuple(share(1, 236), fc.constantFrom('⅛″', '1 15⁄16″', '12.5 mm', '75 mm'));
    const words = fc.constantFrom('with aggregate', 'with 11.5 kg of pea gravel', 'without aggregate, and over a bonded primer only');
    fc.assert(
      fc.property(
        fc.tuple(depth, depth, depth),
        fc.boolean(),
        words,
        fc.integer({ min: 300, max: 424 }),
        (depths, isExtended, w, widthPx) => {
          const [least, most, extended] = depths
            .map(([px, text], i) => [i === 0 ? px : px + 11, text] as const)
            .sort((a, b) => a[0] - b[0]);
          if (least === undefined || most === undefined || extended === undefined) return;
          const drawing = liftPicture({
            widthPx,
            heightPx: Math.round(isExtended ? extended[0] : most[0]) + 58,
            leastPx: least[0],
            mostPx: most[0],
            extendedPx: isExtended ? extended[0] : null,
            leastText: least[1],
            mostText: most[1],
            extendedText: extended[1],
            neatWords: 'without aggregate',
            extendedWords: w,
          });
          checkLabels(drawing);
          expect(textsOf(drawing).filter(({ mark }) => !mark.italic).length).toBe(isExtended ? 3 : 2);
        },
      ),
      RUNS,
    );
  });

  it('the crew of a pour keeps clear, with a name for each', () => {
    const bar = fc.record({
      actor: fc.constantFrom('mixer' as const, 'carrier' as const, 'cart' as const, 'spreader' as const),
      index: fc.nat(3),
      doing: fc.constantFrom('mix' as const, 'hold' as const, 'spread' as const, 'scrape' as const),
      batch: fc.nat(40),
      fromMin: share(0, 300),
      toMin: share(0, 300),
    });
    const spread = fc.tuple(share(0, 60), share(0, 60), share(0, 200)).map(([a, b, c]) => ({ p10: a, p50: a + b, p90: a + b + c }));
    fc.assert(
      fc.property(
        fc.array(bar, { minLength: 1, maxLength: 20 }),
        fc.array(spread, { minLength: 1, maxLength: 120 }),
        widths,
        share(0, 400),
        (bars, placedMin, widthPx, finishMin) => {
          const drawing = crewTimeline({ widthPx, bars, finishMin: Math.max(finishMin, ...bars.map((b) => b.toMin)) });
          checkLabels(drawing);
          const names = textsOf(drawing).filter(({ mark }) => /[cgt]( \d)?$/.test(mark.text));
          expect(names.length).toBe(new Set(bars.map((b) => `${b.actor} ${b.index}`)).size);
          checkLabels(placementBands({ widthPx, heightPx: 190, placedMin }));
        },
      ),
      RUNS,
    );
  });
});
