import { expect, it } from 'vitest';
import { cureSchedule } from '../../../shared-core/cure/cure-schedule.ts';
import { airWhileItDries } from '../../../shared-core/documents/handover-care.ts';
import { INPUT } from '../cure/sheet-fixture.ts';
import { wholeOf } from '../job-variants.ts';

const schedule = cureSchedule(INPUT);
const place = { now: '2026-05-12T16:00:00.000Z', zone: INPUT.place.zone, units: 'us', locale: 'en-US' } as const;
const materials = wholeOf('26-024').pours.map(({ asPoured }) => asPoured.material);

it('says how to keep a poured room by its age and its data sheet, and nothing before the pour', () => {
  expect(airWhileItDries([{ materials: [], schedule }], place)).toEqual([]);
  expect(airWhileItDries([{ materials, schedule }], place)).toEqual([
    'Keep the rooms at 60 °F to 75 °F. Do not point fans, heaters or dehumidifiers at the floor.',
    'For the first 3 days, also keep windows closed, and keep drafts and direct sun off the floor.',
  ]);
  const narrow = materials.map((material) => ({
    ...material,
    powder: material.powder && {
      ...material.powder,
      roomTempC: { ...material.powder.roomTempC, value: { least: 18.333, most: 21.111 } },
    },
  }));
  expect(airWhileItDries([{ materials: narrow, schedule }], { ...place, now: '2026-05-20T16:00:00.000Z' })).toEqual([
    'Keep the rooms at 65 °F to 70 °F. Do not point fans, heaters or dehumidifiers at the floor.',
  ]);
});
