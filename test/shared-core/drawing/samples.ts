import { cureRoomMarks } from '../../../shared-core/drawing/cure-bars.ts';
import { datumMarks, dayTicks, weekendSpans } from '../../../shared-core/drawing/datum.ts';
import { hourStrip } from '../../../shared-core/drawing/hour-strip.ts';
import { pourClock } from '../../../shared-core/drawing/pour-clock.ts';
import { todayRibbon } from '../../../shared-core/drawing/ribbon.ts';
import { layersSection } from '../../../shared-core/drawing/layers-section.ts';
import type { Drawing } from '../../../shared-core/drawing/marks.ts';
import { planDrawing } from '../../../shared-core/drawing/plan.ts';
import { sectionDrawing } from '../../../shared-core/drawing/section.ts';
import { FT, hallHeight, hallInput, IN } from './sample-room.ts';

const cap = -0.125 * IN;

function hallSection(): Drawing {
  const points = Array.from({ length: 141 }, (_, k) => {
    const alongFt = (28 * k) / 140;
    const [x, y] = alongFt < 10.6 ? [3.1, alongFt] : [3.1 + alongFt - 10.6, 10.6];
    const floorM = hallHeight(x * FT, y * FT);
    return { alongM: alongFt * FT, floorM, groundM: Math.min(floorM, cap), newFloorM: 0 };
  });
  return sectionDrawing({
    widthPx: 1440,
    heightPx: 170,
    datumY: 60,
    x0: 164,
    x1: 1318,
    points,
    units: 'us',
    exaggeration: null,
    start: { letter: 'A', words: '', hatch: 'stone', heightM: null },
    end: { letter: 'A′', words: 'oak', hatch: 'panel', heightM: 0 },
    depths: [
      { alongM: 1.2 * FT, text: '⅝″' },
      { alongM: 10 * FT, text: '1½″' },
      { alongM: 20.5 * FT, text: '½″' },
    ],
    places: [{ alongM: 10.6 * FT, text: 'the corner' }],
    floorWords: 'concrete as it lies, heights drawn ten times',
    grindWords: '⅜″ ground off',
    lineWords: 'new floor',
  });
}

function kitchenLayers(): Drawing {
  const layer = (
    id: string,
    words: string,
    look: Parameters<typeof layersSection>[0]['parts'][0]['layers'][0]['look'],
    thicknessM: number | null,
    isHeld = false,
  ) => ({
    id,
    words,
    look,
    thicknessM,
    isHeld,
    isRemoved: false,
  });
  return layersSection({
    widthPx: 960,
    heightPx: 500,
    datumY: 210,
    x0: 136,
    x1: 922,
    lengthM: 19.6 * FT,
    units: 'us',
    parts: [
      {
        fromM: 0,
        toM: 10.4 * FT,
        layers: [
          layer('plank', 'Floating plank, 2009: lift out', 'panel', 0.008),
          layer('tile', '9″ tile, age not known', 'cut', 0.006, true),
          layer('black', 'Black adhesive, age not known', 'adhesive', null, true),
          layer('ply', '¼″ panel, nailed down: stays', 'panel', 0.006),
          layer('boards', '¾″ boards of 1926, on 2 × 10 joists: stay', 'grain', 0.019),
          layer('joists', '2 × 10 joists', 'joists', 0.24),
        ],
      },
      {
        fromM: 10.4 * FT,
        toM: 19.6 * FT,
        layers: [
          layer('plank2', 'Floating plank, 2009: lift out', 'panel', 0.008),
          layer('pad', 'Foam pad: lift out', 'plain', 0.003),
          layer('slab', '4″ concrete of 1994, on ground: stays', 'concrete', 0.1),
          layer('poly', 'Polythene', 'membrane', null),
          layer('gravel', 'Gravel', 'gravel', 0.1),
          layer('earth', 'Earth', 'earth', null),
        ],
      },
    ],
    surface: [
      { alongM: 0, belowM: 0.012 },
      { alongM: 6.3 * FT, belowM: 0.032 },
      { alongM: 11 * FT, belowM: 0.02 },
      { alongM: 19.6 * FT, belowM: 0.009 },
    ],
    depths: [
      { alongM: 2.2 * FT, text: '¾″' },
      { alongM: 6.3 * FT, text: '1¼″' },
      { alongM: 8.6 * FT, text: '1¹⁄₁₆″' },
      { alongM: 16.6 * FT, text: '⁹⁄₁₆″' },
    ],
    probes: [
      { id: 'wood', alongM: 0.7 * FT, layerIndex: 4, label: 'Moisture of the boards' },
      { id: 'rh', alongM: 13.2 * FT, layerIndex: 2, label: 'Humidity in the slab' },
    ],
    lineWords: 'level',
    listY: 40,
    probeToY: 490,
  });
}

/** A room of Today's ribbon without a bar. */
export const RIBBON_ROOM = {
  ...{ state: 'under-way' as const, letter: null, isAgreed: true, note: '', isNoteLate: false, label: '' },
  ...{ prep: null, pours: [], drying: null, ready: null, held: null },
};

function ribbon(): Drawing {
  return todayRibbon({
    widthPx: 1440,
    fromDay: '2026-05-11',
    days: 42,
    today: 1.3,
    locale: 'en-US',
    x0: 392,
    x1: 1404,
    datumY: 40,
    jobs: [
      {
        id: 'a',
        name: 'Lindqvist',
        place: '8 Cooper’s Wharf',
        rooms: [
          {
            ...RIBBON_ROOM,
            id: '1',
            name: 'Family room',
            letter: 'A',
            prep: { from: 0, to: 1 },
            pours: [{ from: 1, to: 2 }],
            drying: { from: 2, to: 22 },
            ready: { from: 20, to: 27 },
            note: 'walk on 6 pm today, oak from Jun 2',
          },
          { ...RIBBON_ROOM, id: '2', name: 'Mud room', drying: { from: -8, to: 4 }, ready: { from: 3, to: 6 }, note: 'tile from Friday' },
        ],
      },
      {
        id: 'b',
        name: 'Rusk',
        place: '260 Ferry Street',
        rooms: [
          {
            ...RIBBON_ROOM,
            id: '3',
            name: 'Kitchen',
            state: 'held',
            letter: 'E',
            isAgreed: false,
            held: { from: 0, to: 4.6 },
            prep: { from: 7, to: 9 },
            pours: [{ from: 9, to: 10 }],
            drying: { from: 10, to: 28 },
            ready: { from: 25, to: 32 },
            note: 'held for the lab',
          },
          {
            ...RIBBON_ROOM,
            id: '4',
            name: 'Storage room',
            state: 'waiting',
            isAgreed: false,
            prep: { from: 8, to: 9 },
            pours: [{ from: 9, to: 10 }],
            drying: { from: 10, to: 17 },
            ready: { from: 15, to: 20 },
          },
        ],
      },
      {
        id: 'c',
        name: 'Odell',
        place: '41 Pennant Hill Road',
        rooms: [
          {
            ...RIBBON_ROOM,
            id: '5',
            name: 'Hall',
            letter: 'C',
            isAgreed: false,
            prep: { from: 15, to: 16 },
            pours: [{ from: 16, to: 17 }],
            drying: { from: 17, to: 31 },
            ready: { from: 29, to: 36 },
            note: 'quote late',
            isNoteLate: true,
          },
        ],
      },
    ],
  });
}

function cure(): Drawing {
  const scale = { from: 0, to: 35, x0: 564, x1: 1404, isLog: false };
  const mile = (id: string, likely: number, more: object = {}) => ({
    id,
    earliest: likely - 0.2,
    likely,
    latest: likely + 0.4,
    promised: [],
    isDone: false,
    isLate: false,
    isDrying: false,
    label: id,
    ...more,
  });
  const readings = Array.from({ length: 160 }, (_, k) => ({
    day: 2.5 + k * 0.037,
    tempC: 18 + 1.2 * Math.sin(k * 0.23) - (k > 60 && k < 74 ? 9 : 0),
  }));
  const rows = { topY: 60, rowPx: 22, scale, now: 8.3 };
  const room = {
    id: 'd',
    pouredAt: 2.5,
    milestones: [
      mile('walk', 2.7, { isDone: true }),
      mile('carts', 3.6, { isDone: true }),
      mile('furniture', 9.5, { earliest: 9, latest: 10.6 }),
      mile('oak', 14, { isDrying: true, earliest: 12, latest: 17, promised: [13], isLate: true }),
    ],
    log: {
      readings,
      assumedC: 18,
      assumedTo: 17,
      assumedText: '64° assumed',
      leastC: 10,
      leastText: '50°',
      stoodStill: [{ from: 4.7, to: 5.2 }],
    },
  };
  return {
    width: 1440,
    height: 220,
    marks: [
      ...datumMarks({
        y: 40,
        fromX: 0,
        toX: 1440,
        scale,
        ticks: dayTicks('2026-05-04', 35, 'en-US'),
        hatched: weekendSpans('2026-05-04', 35),
        pointerAt: 8.3,
        pointerToY: 200,
      }),
      ...cureRoomMarks(room, rows),
    ],
  };
}

function hours(): Drawing {
  return hourStrip({
    widthPx: 1440,
    x0: 60,
    x1: 1404,
    datumY: 40,
    fromHour: 7,
    toHour: 17,
    clock: '12',
    now: 10.33,
    preparing: { from: 7.2, to: 9.17, text: 'preparing' },
    primed: { hour: 9.4, text: 'primed 9:10' },
    dry: { hour: 11.67, text: 'dry from 11:40' },
    pour: { from: 12.5, to: 12.85, text: 'we pour at 12:30' },
    latest: { hour: 15.17, text: 'no later than 3:10', beyondText: 'too old: prime again' },
  });
}

export function samples(): Record<string, Drawing> {
  return {
    hall: planDrawing(hallInput()),
    section: hallSection(),
    layers: kitchenLayers(),
    ribbon: ribbon(),
    cure: cure(),
    hours: hours(),
    clock: pourClock({
      widthPx: 1440,
      x0: 48,
      x1: 1392,
      ageMinutes: 8.67,
      healingMinutes: 15,
      coldWords: '15 minutes: cold joint',
      letteringPx: 22,
    }),
  };
}
