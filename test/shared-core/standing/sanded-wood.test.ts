import { describe, expect, it } from 'vitest';
import type { Layer } from '../../../shared-core/book/layer.ts';
import { scopeWords } from '../../../shared-core/documents/quote-words.ts';
import { asQuoted } from '../../../shared-core/documents/issue-quote-document.ts';
import { roomPlan, usualSection } from '../../../shared-core/drawing/room-plan.ts';
import { roomSection } from '../../../shared-core/drawing/room-section.ts';
import { INCH_M } from '../../../shared-core/measure/length-units.ts';
import { readJob, type RoomReading } from '../../../shared-core/standing/read-job.ts';
import { cutWords } from '../../../shared-core/substrate/exposed-layers.ts';
import { GROUND, SANDED, sharedCutWords } from '../../../shared-core/survey/cut-words.ts';
import { NOW, wholeOf } from '../job-variants.ts';
import { layer, LEFT_HALF, ROOM_4_BY_3 } from '../substrate/a-floor.ts';

/** The hall of the sample, with up to this much taken off its high spots, on its plywood or on other layers. */
function hallOf({ mostIn = 0.375, layers }: { readonly mostIn?: number; readonly layers?: readonly Layer[] } = {}) {
  const whole = wholeOf('26-031');
  const rooms = whole.rooms.map((room) =>
    room.name === 'Hall' && layers !== undefined ? { ...room, layers: [...layers], tests: [] } : room,
  );
  const jobRooms = whole.job.rooms.map((one) => ({
    ...one,
    level: { ...one.level, grindMostM: one.roomId === 'sample-hall' ? mostIn * INCH_M : 0 },
  }));
  const reading = readJob({ ...whole, rooms, job: { ...whole.job, rooms: jobRooms } }, NOW);
  const hall = reading.rooms.find(({ room }) => room.name === 'Hall');
  if (hall?.estimate?.survey.state !== 'surveyed') throw new Error('The hall is surveyed.');
  return { reading, hall, estimate: hall.estimate, survey: hall.estimate.survey };
}

/** All that the estimate says of taking down the high spots. */
function saidOf(floor: ReturnType<typeof hallOf>): readonly string[] {
  const { reading, hall, estimate, survey } = floor;
  const { price } = reading.estimate.base;
  const drawn = { survey, level: estimate.level, units: 'us', locale: 'en-US', room: hall.room, widthPx: 800 } as const;
  const cut = usualSection(hall.room, survey);
  if (cut === null) throw new Error('The hall has a section.');
  const plan = roomPlan({ ...drawn, heightPx: 500, shows: 'depth', section: [...cut], isSparse: false });
  const section = roomSection({ ...drawn, cut, heightPx: 200, datumY: 40, x0: 40, x1: 760 });
  return [
    reading.estimate.base.name,
    ...price.lines.filter(({ key }) => key.endsWith('/grind')).map(({ name }) => name),
    ...scopeWords(asQuoted(reading), estimate, price),
    plan.grindNote ?? '',
    section?.grindWords ?? '',
  ];
}
const depthFinding = ({ assessment }: RoomReading) => assessment.findings.find(({ ruleId }) => ruleId === 'sanding-deep');

// Common practice, no source: wood is sanded, a mineral floor is ground.
describe('high spots of a wood floor', () => {
  it('are sanded in the estimate, its drawings and its quote, and those of a slab are ground', () => {
    const wood = saidOf(hallOf()).join('\n');
    expect(wood).not.toMatch(/\bgrind|\bground/i);
    for (const words of [
      'Sand, then level',
      'Sand the high spots',
      'Sand first: ⅜″ off the top',
      '⅜″ sanded off',
      'of high spots with dust',
    ])
      expect(wood).toContain(words);
    const slab = saidOf(hallOf({ layers: [layer('concrete-on-ground')] })).join('\n');
    expect(slab).not.toMatch(/\bsand/i);
    for (const words of ['Grind, then level', 'Grind the high spots', 'Grind first: ⅜″ off the top', '⅜″ ground off'])
      expect(slab).toContain(words);
  });

  it('are ground where any of the floor is not wood', () => {
    const words = (layers: readonly Layer[]) => cutWords({ layers, tests: [], plan: ROOM_4_BY_3 });
    expect(words([layer('plywood'), layer('joists')])).toBe(SANDED);
    expect(words([layer('plywood', { area: LEFT_HALF }), layer('concrete-on-ground')])).toBe(GROUND);
    expect(words([])).toBe(GROUND);
    expect(sharedCutWords([SANDED, SANDED])).toBe(SANDED);
    expect(sharedCutWords([SANDED, GROUND]).noun).toBe('grinding or sanding');
    expect(sharedCutWords([])).toBe(GROUND);
  });

  // Common practice, no source: no more than 1/8 in. comes off a structural panel.
  it('are held where more than 1/8 in. comes off the panel, by the depth that the estimate takes', () => {
    const deep = depthFinding(hallOf().hall);
    expect(deep).toMatchObject({ verdict: 'hold', holds: ['sand'], title: 'sanding depth' });
    expect(deep?.text).toBe(
      'The estimate sands ⅜″ off the ¾″ plywood. More than ⅛″ weakens a panel. Lower the max sanding depth, raise the finish elevation, or replace the panel.',
    );
    expect(depthFinding(hallOf({ mostIn: 0.125 }).hall)).toBeUndefined();
    expect(depthFinding(hallOf({ mostIn: 0 }).hall)).toBeUndefined();
    expect(depthFinding(hallOf({ layers: [layer('concrete-on-ground')] }).hall)).toBeUndefined();
  });
});
