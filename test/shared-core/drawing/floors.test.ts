/** Floor assemblies and houses at scales that make every position a whole number to check by hand: mostly 100 px a meter. */
import { describe, expect, it } from 'vitest';
import { houseDrawing, keyPlan, type HouseInput, type HouseRoom } from '../../../shared-core/drawing/house.ts';
import { layersSection, readThicknessPx, type LayersInput, type SectionLayer } from '../../../shared-core/drawing/layers-section.ts';
import type { Mark } from '../../../shared-core/drawing/marks.ts';
import { roomLayers } from '../../../shared-core/drawing/room-layers.ts';
import { textWidthPx, wrapText } from '../../../shared-core/drawing/type-metrics.ts';
import { layer as aLayer } from '../substrate/a-floor.ts';
import { checkLabels, textsOf } from './check-labels.ts';
import { markWords } from './mark-words.ts';
import { points } from '../../outlines.ts';
import { box } from '../pour/floors.ts';

const named = (marks: readonly Mark[], name: string): Mark[] =>
  marks.flatMap((mark) => (mark.kind !== 'group' ? [] : mark.name === name ? mark.marks : named(mark.marks, name)));
/** Left, top, right and bottom of lines and areas. */
function extent(marks: readonly Mark[]): number[] {
  const xy = marks.flatMap((mark) =>
    mark.kind === 'path' || mark.kind === 'hatch' ? mark.rings.flatMap((ring) => ring.xy) : mark.kind === 'stipple' ? mark.xy : [],
  );
  const [xs, ys] = [xy.filter((_, i) => i % 2 === 0), xy.filter((_, i) => i % 2 === 1)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

const layer = (id: string, look: SectionLayer['look'], thicknessM: number | null, rest: Partial<SectionLayer> = {}): SectionLayer => ({
  id,
  words: id,
  look,
  thicknessM,
  isHeld: false,
  isRemoved: false,
  ...rest,
});
const LAYERS = [layer('plywood', 'panel', 0.02), layer('glue', 'adhesive', null, { isHeld: true }), layer('other', 'plain', null)];
// 10 mm below the level at 1600 px a meter is 16 px; the surface is 10 px below that: y 86.
const floor: LayersInput = {
  widthPx: 600,
  heightPx: 400,
  datumY: 60,
  x0: 50,
  x1: 450,
  lengthM: 4,
  units: 'metric',
  parts: [{ fromM: 0, toM: 4, layers: LAYERS }],
  surface: [
    { alongM: 0, belowM: 0.01 },
    { alongM: 4, belowM: 0.01 },
  ],
  depths: [],
  probes: [],
  lineWords: '',
  listY: 200,
  probeToY: 180,
};

describe('a floor assembly', () => {
  it('is drawn thicker where thin and thinner where thick', () => {
    expect([0, 0.02, 0.03, 0.1, 0.2].map((m) => Math.round(readThicknessPx(m, 'panel') * 10) / 10)).toEqual([9, 15, 18, 57.2, 84]);
    expect([readThicknessPx(null, 'panel'), readThicknessPx(0.2, 'membrane'), readThicknessPx(null, 'joists')]).toEqual([9, 4, 100]);
  });

  it('lies in layers below each other', () => {
    const { marks } = layersSection(floor);
    expect(extent(named(marks, 'layer:0:plywood'))).toEqual([50, 86, 450, 101]);
    expect(extent(named(marks, 'layer:0:glue'))).toEqual([50, 101, 450, 107]);
    // A plain layer is its lower line alone.
    expect(extent(named(marks, 'layer:0:other'))).toEqual([50, 116, 450, 116]);
    const all = markWords(marks);
    // The walls at both ends, 6 px past the layers.
    expect(all).toContain('hatch wall 35,2 50,2 50,122 35,122');
    expect(all).toContain('hatch wall 450,2 465,2 465,122 450,122');
    expect(all).toContain('line 30,2 38.5,2 41.5,-3 44.5,7 46.5,2 55,2');
  });

  it('lists its layers with a dot in each, a bar before those on hold', () => {
    const list = markWords(named(layersSection(floor).marks, 'layers'));
    expect(list[0]).toBe('line 94,195 94,111.5 / 94,195 106,195 / 94,218 106,218 / 94,241 106,241');
    expect(list.slice(1, 5)).toEqual([
      'text 112,200 start plywood',
      'filled 112,215 130,215 130,221 112,221',
      'text 137,223 start glue',
      'text 112,246 start other',
    ]);
    // Dots in the middle of layers from 86, 101 and 107, of 15, 6 and 9 px.
    expect(list.slice(5).map((line) => /^filled (\S+)/.exec(line)?.[1])).toEqual(['97.2,93.5', '97.2,104', '97.2,111.5']);
  });

  it('shrinks to its space, in proportion', () => {
    const three = ['a', 'b', 'c'].map((id) => layer(id, 'joists', null));
    const { marks } = layersSection({ ...floor, heightPx: 280, parts: [{ fromM: 0, toM: 4, layers: three }] });
    // 150 px for three layers of 100.
    expect(extent(named(marks, 'layer:0:b')).filter((_, i) => i % 2 === 1)).toEqual([136, 186]);
  });

  it('has joists a few feet apart across its width', () => {
    const joists = layer('joists', 'joists', null);
    const { marks } = layersSection({ ...floor, parts: [{ fromM: 0, toM: 2, layers: [joists] }] });
    const parts = markWords(named(marks, 'layer:0:joists'));
    // Four in 200 px, 14 px wide, from 3 px inside one end to 3 px inside the other: 60 px apart.
    expect(parts.filter((line) => line.startsWith('ring')).map((line) => line.split(' ')[1])).toEqual([
      '53,86',
      '113,86',
      '173,86',
      '233,86',
    ]);
  });

  it('labels a depth beside its line, or above the level where there is no room', () => {
    const depth = (belowM: number) =>
      markWords(
        layersSection({
          ...floor,
          surface: [
            { alongM: 0, belowM },
            { alongM: 4, belowM },
          ],
          depths: [{ alongM: 1, text: '⅜″' }],
        }).marks,
      );
    expect(depth(0.01)).toEqual(
      expect.arrayContaining(['line 150,44 150,86', 'line 146,64 154,56', 'line 146,90 154,82', 'text 157,48 start ⅜″']),
    );
    expect(depth(0.02)).toContain('text 157,87 start ⅜″');
  });

  it('eases between two depths, half of each in the middle', () => {
    const { marks } = layersSection({
      ...floor,
      surface: [
        { alongM: 1, belowM: 0 },
        { alongM: 3, belowM: 0.02 },
      ],
      parts: [],
    });
    const cut = marks.find((mark) => mark.kind === 'path' && mark.pen === 'cut');
    if (cut?.kind !== 'path') throw new Error('the surface');
    const xy = cut.rings[0]?.xy ?? [];
    const yAt = (x: number) => xy[xy.indexOf(x) + 1];
    // 0.02 m is 32 px. A quarter of the way 3t² − 2t³ is 5/32.
    expect([50, 150, 200, 250, 350, 450].map(yAt)).toEqual([70, 70, 75, 86, 102, 102]);
  });

  it('has the surface tests in the floor under heat mats', () => {
    const plan = { outline: [], holes: [], openings: [], placedAt: { xM: 0, yM: 0, turnDeg: 0 }, diagonals: [] };
    const layers = [aLayer('radiant-heating'), aLayer('plywood'), aLayer('joists')];
    const probes = (['absorption', 'surface-strength', 'surface-look', 'wood-structure'] as const).map((id) => ({ id, x: 200, label: id }));
    const choice = { survey: null, heldIds: new Set<string>(), units: 'us', widthPx: 600, x0: 50, x1: 450 } as const;
    expect(roomLayers({ ...choice, room: { plan, layers }, probes }).probes.map(({ layerIndex }) => layerIndex)).toEqual([1, 1, 1, 2]);
  });

  it('shows each test in its layer, and a wall between parts', () => {
    const probes = [
      { id: 'rh', alongM: 2, layerIndex: 1, label: '' },
      { id: 'none', alongM: 9, layerIndex: 0, label: '' },
    ];
    const { marks } = layersSection({
      ...floor,
      probes,
      parts: [0, 3].map((fromM) => ({ fromM, toM: fromM === 0 ? 3 : 4, layers: LAYERS })),
    });
    expect(markWords(named(marks, 'test:rh'))[0]).toBe('line 250,104 250,180');
    expect(named(marks, 'test:none')).toEqual([]);
    expect(markWords(marks)).toContain('hatch wall 347,100 353,100 353,116 347,116');
  });
});

const room = (id: string, w: number, h: number, xM: number, yM: number, rest: Partial<HouseRoom> = {}): HouseRoom => ({
  id,
  plan: {
    outline: [...box(0, 0, w, h).outline],
    holes: [],
    openings: [],
    placedAt: { xM, yM, turnDeg: 0 },
  },
  look: 'plain',
  hatch: null,
  lines: [],
  label: id,
  ...rest,
});
const HALL = room('hall', 4, 3, 0, 0);
const ENTRY = room('entry', 2, 3, 4, 0);
const house: HouseInput = {
  widthPx: 632,
  heightPx: 332,
  rooms: [HALL, ENTRY],
  notes: [],
  hasDimensions: false,
  lengthText: (m) => `${m.toFixed(2)} m`,
  scale: null,
  key: null,
};
const inRoom = (input: HouseInput, id: string): string[] => markWords(named(houseDrawing(input).marks, `room:${id}`));

describe('a house', () => {
  it('fits all rooms to one scale', () => {
    const rooms = [
      { ...HALL, look: 'now' as const },
      { ...ENTRY, isPicked: true },
    ];
    expect(inRoom({ ...house, rooms }, 'hall')).toEqual(['hatch wide 16,16 416,16 416,316 16,316', 'ring 16,16 416,16 416,316 16,316']);
    expect(inRoom({ ...house, rooms }, 'entry')).toEqual(['ring 416,16 616,16 616,316 416,316']);
    expect(houseDrawing({ ...house, rooms: [] }).marks).toEqual([]);
  });

  it('turns a room about its own corner', () => {
    // A quarter turn clockwise on the drawing: 3 m wide and 2 m deep from x 3 m to the left.
    const turned = { ...room('turned', 2, 3, 3, 0, { isPicked: true }) };
    const rooms = [{ ...turned, plan: { ...turned.plan, placedAt: { xM: 3, yM: 0, turnDeg: 90 } } }];
    expect(inRoom({ ...house, widthPx: 332, heightPx: 232, rooms }, 'turned')).toEqual(['ring 316,16 316,216 16,216 16,16']);
  });

  it('dots the placed part alone, and dashes the joint', () => {
    const placed = [points('0,0 1,0 1,3 0,3')];
    const joints = [{ from: { xM: 1, yM: 0 }, to: { xM: 1, yM: 3 } }];
    const marks = named(houseDrawing({ ...house, rooms: [{ ...HALL, look: 'ours', placed, joints }, ENTRY] }).marks, 'room:hall');
    const [left = 0, top = 0, right = 0, bottom = 0] = extent(marks.filter((mark) => mark.kind === 'stipple'));
    expect([left > 16, top > 16, right < 116, bottom < 316]).toEqual([true, true, true, true]);
    expect([left < 26, top < 26, right > 106, bottom > 306]).toEqual([true, true, true, true]);
    expect(markWords(marks)).toContain('not-yet 116,16 116,316');
  });

  it('stands a note at its place, a letter in a square or a figure with words', () => {
    const notes = [
      { id: 'a', roomId: 'entry', xM: 1, yM: 2, letter: 'A', text: '' },
      { id: 'b', roomId: 'hall', xM: 2, yM: 1, letter: '2', text: 'crack' },
      { id: 'c', roomId: 'gone', xM: 0, yM: 0, letter: 'C', text: '' },
    ];
    const { marks } = houseDrawing({ ...house, notes });
    expect(markWords(named(marks, 'note:a'))).toEqual(['ring 506,206 526,206 526,226 506,226', 'text 516,221 middle A']);
    expect(markWords(named(marks, 'note:b'))).toEqual(['text 211,121 start 2', 'text 224,121 start crack']);
    expect(named(marks, 'note:c')).toEqual([]);
  });

  it('has the letter of every note, also where many are about one place of a small plan', () => {
    const letters = [...'ABCDEFGHIJKL'];
    const notes = letters.map((letter) => ({ id: letter, roomId: 'hall', xM: 1, yM: 1.5, letter, text: '' }));
    for (const [widthPx, heightPx] of [
      [632, 332],
      [200, 160],
    ] as const) {
      const drawing = houseDrawing({ ...house, widthPx, heightPx, notes });
      expect(
        letters.filter((letter) => markWords(named(drawing.marks, `note:${letter}`)).some((line) => line.endsWith(` ${letter}`))),
      ).toEqual(letters);
      checkLabels(drawing);
    }
  });

  it('cuts a name that is longer than its room, and keeps the dates below it', () => {
    const name = 'Upstairs sewing studio with the walk-in closet and the bathroom';
    const lines = [name, 'foot traffic: now', 'glued wood: June 1 or later'];
    for (const size of [
      [632, 332],
      [420, 240],
    ] as const) {
      const drawing = houseDrawing({ ...house, widthPx: size[0], heightPx: size[1], rooms: [{ ...HALL, lines }, ENTRY] });
      checkLabels(drawing);
      const [first, ...rest] = textsOf(drawing).map(({ mark }) => mark.text);
      expect(rest).toEqual(lines.slice(1));
      expect(first).toMatch(/^Upstairs se.*…$/);
    }
    // Where the whole name fits, it is whole.
    expect(textsOf(houseDrawing({ ...house, rooms: [{ ...HALL, lines: ['Hall', 'foot traffic: now'] }, ENTRY] }))[0]?.mark.text).toBe(
      'Hall',
    );
  });

  it('measures the whole below it and to its right', () => {
    const marks = markWords(houseDrawing({ ...house, widthPx: 692, heightPx: 412, hasDimensions: true }).marks);
    expect(marks).toContain('text 334,395 middle 6.00 m');
    expect(marks).toContain('text 673,190 middle 3.00 m');
  });

  it('measures each room along the bottom, and the whole where a room is too narrow for its words', () => {
    const chain = (rooms: HouseRoom[]) =>
      markWords(houseDrawing({ ...house, rooms, widthPx: 664, heightPx: 352, hasDimensions: true, dimensions: 'chain' }).marks).filter(
        (line) => line.endsWith(' m'),
      );
    // Left 52, top 12; the line is 24 px below the house, the depth 26 px to its left.
    expect(chain([HALL, ENTRY])).toEqual(['text 252,341 middle 4.00 m', 'text 552,341 middle 2.00 m', 'text 31,162 middle 3.00 m']);
    expect(chain([room('hall', 5.5, 3, 0, 0), room('closet', 0.5, 3, 5.5, 0)])).toEqual([
      'text 352,341 middle 6.00 m',
      'text 31,162 middle 3.00 m',
    ]);
    // A room that ends above the bottom is not measured there.
    expect(chain([HALL, room('porch', 2, 2, 4, 0)])[0]).toBe('text 252,341 middle 4.00 m');
    expect(chain([HALL, room('porch', 2, 2, 4, 0)])).toHaveLength(2);
  });

  it('has its key and scale at the foot', () => {
    const marks = markWords(
      houseDrawing({
        ...house,
        heightPx: 372,
        scale: { lengthM: 1, text: '1 m' },
        key: { ours: 'poured', now: 'this job', plain: 'other' },
      }).marks,
    );
    const after = 16 + 66 + textWidthPx('poured', 15) + 28;
    const at = (x: number) => Math.round(x * 10) / 10;
    expect(marks).toContain('ring 16,334 70,334 70,356 16,356');
    expect(marks).toContain('text 82,351 start poured');
    expect(marks).toContain(`hatch wide ${at(after)},334 ${at(after + 54)},334 ${at(after + 54)},356 ${at(after)},356`);
    expect(marks).toContain('ring 516,336 616,336 616,342 516,342');
    // A bar of 24 px or less says nothing.
    const short = markWords(houseDrawing({ ...house, scale: { lengthM: 0.24, text: '0.24 m' } }).marks);
    expect(short.some((line) => line.endsWith('0.24 m'))).toBe(false);
  });

  it('names a room in its middle, sideways in a narrow one', () => {
    expect(inRoom({ ...house, rooms: [{ ...HALL, lines: ['Hall', '12 m²'] }, ENTRY] }, 'hall')).toEqual([
      'text 216,161.5 middle Hall',
      'text 216,180.5 middle 12 m²',
    ]);
    const narrow = named(
      houseDrawing({ ...house, rooms: [HALL, room('closet', 0.5, 3, 4, 0, { lines: ['Linen closet'] })] }).marks,
      'room:closet',
    );
    expect(narrow).toMatchObject([{ kind: 'text', turnDeg: -90, text: 'Linen closet' }]);
  });

  it('has a small plan with one room picked, drawn last, and the cut through it', () => {
    const cut = [
      { xM: 0, yM: 1 },
      { xM: 2, yM: 1 },
    ];
    const plan = keyPlan([{ ...ENTRY, isPicked: true }, HALL], 606, 306, cut);
    expect(markWords(plan.marks)).toEqual([
      'ring 3,3 403,3 403,303 3,303',
      'hatch wall 403,3 603,3 603,303 403,303',
      'ring 403,3 603,3 603,303 403,303',
      'cut 403,103 603,103',
    ]);
    // The picked room is heavier than the others.
    const pens = plan.marks
      .flatMap((mark) => (mark.kind === 'group' ? mark.marks : [mark]))
      .flatMap((mark) => (mark.kind === 'path' ? [mark.pen] : []));
    expect(pens).toEqual(['thin', 'seen', 'thin']);
    expect(keyPlan([HALL, ENTRY], 606, 306, cut).marks).toHaveLength(2);
  });
});

describe('lines of text', () => {
  it('break at the width, and give a wider word its own line', () => {
    const width = textWidthPx('one two', 15);
    expect(wrapText('one two three', width, 15)).toEqual(['one two', 'three']);
    expect(wrapText('unbreakable a b', textWidthPx('a b', 15), 15)).toEqual(['unbreakable', 'a b']);
    expect(wrapText('  ', 100, 15)).toEqual([]);
  });

  // Common practice of setting, no source.
  it('part no figure from its unit', () => {
    expect(wrapText('Cut 1 1/2 in. off', textWidthPx('Cut 1 1/2', 15), 15)).toEqual(['Cut', '1 1/2 in.', 'off']);
  });
});
