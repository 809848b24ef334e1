import { newRoom } from '../book/new-records.ts';
import type { Room } from '../book/room.ts';
import { door, rectangle, ring, samplePlan, sampleSurvey } from './sample-floor.ts';
import type { SampleClock } from './sample-time.ts';
import { layers, CONCRETE_GROUND, humid, QUIET } from './sample-tests.ts';

/** Rusk: a basement over old adhesive that waits for a lab result, and a storage room without readings. */
export function ruskRooms(clock: SampleClock): Room[] {
  const now = clock.instantAt(-8, '09:00');
  const read = clock.instantAt(-4, '14:30');
  const house = 'sample-ferry-street';
  const basement = samplePlan(
    rectangle(18.5, 14),
    [0, 0],
    [door('sample-basement-door', 'stairs', [3, 9, 2.8, 2], { adjoiningFlooring: 'oak tread', edge: 'stop' })],
    [{ id: 'sample-basement-post', kind: 'column', name: 'post', corners: ring([9, 6.6], [9.6, 6.6], [9.6, 7.2], [9, 7.2]) }],
  );
  return [
    {
      ...newRoom({ id: 'sample-basement', now }, house, 'Basement'),
      plan: basement,
      layers: layers('sample-basement', [
        { material: 'resilient-tile', yearInstalled: null, inches: 0.125, fate: 'remove' },
        { material: 'adhesive-cutback', yearInstalled: null, inches: 0.04, fate: 'remove', sound: 'unknown' },
        { ...CONCRETE_GROUND, yearInstalled: 1926 },
      ]),
      survey: sampleSurvey(
        basement,
        { tiltXIn: 0.35, tiltYIn: 0.1, swells: [{ xFt: 12, yFt: 5, radiusFt: 4, heightIn: -0.5 }] },
        read,
        'sample-basement',
      ),
      tests: [
        {
          id: 'sample-basement-t1',
          takenAt: read,
          by: 'RT',
          point: null,
          note: '',
          kind: 'lab',
          question: 'asbestos',
          layerId: 'sample-basement-l2',
          state: 'sent',
          lab: 'Tarrow Falls Materials Lab',
          sample: 'FS-260-1',
          resultOn: null,
          dueOn: clock.day(3),
        },
        humid('sample-basement-t2', read, 0.84),
      ],
      circumstances: { ...QUIET, belowGrade: true, vaporRetarder: 'unknown', paintedTrim: 'stays-untouched', radiantHeat: 'none' },
    },
    { ...newRoom({ id: 'sample-storage', now }, house, 'Storage room'), plan: samplePlan(rectangle(8, 7), [18.5, 0], []) },
  ];
}
