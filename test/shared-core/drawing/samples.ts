/** Sample drawings by name. */
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
    return { alongM: alongFt * FT, floorM: hallHeight(x * FT, y * FT), newFloorM: 0 };
  });
  return sectionDrawing({
    widthPx: 1440,
    heightPx: 170,
    datumY: 60,
    x0: 164,
    x1: 1318,
    points,
    grindToM: cap,
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
  const layer = (id: string, words: string, look: Parameters<typeof layersSection>[0]['parts'][0]['layers'][0]['look'], thicknessM: number | null, isHeld = false) => ({
    id,
    words,
    look,
    thicknessM,
    isHeld,
    isRemoved: false,
    isInsulated: true,
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

export function samples(): Record<string, Drawing> {
  return {
    hall: planDrawing(hallInput()),
    section: hallSection(),
    layers: kitchenLayers(),
  };
}
