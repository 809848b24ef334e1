/** A weight that comes from a guess on the phone says so, until readings are taken. */
import { expect, it } from 'vitest';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { NOW, wholeOf } from '../job-variants.ts';

it('says of a load on joists that it comes from a ballpark, and no more once the floor is read', () => {
  const whole = wholeOf('26-031');
  const ballpark = { kind: 'gap' as const, gapM: 0.04, levelLengthM: 1.8288 };
  const said = (hasReadings: boolean): string => {
    const rooms = whole.rooms.map((room) => ({
      ...room,
      ballpark,
      survey: { ...room.survey, readings: hasReadings ? room.survey.readings : [] },
      circumstances: { ...room.circumstances, allowedExtraLoadPa: 1, loadStatedBy: 'the plans' },
    }));
    return readJob({ ...whole, rooms }, NOW)
      .rooms.flatMap(({ assessment }) => assessment.findings)
      .filter(({ ruleId }) => ruleId === 'load-over')
      .map(({ text }) => text)
      .join(' ');
  };
  expect(said(false)).toMatch(/^By the ballpark, at its deepest the pour adds /);
  expect(said(true)).toMatch(/^At its deepest the pour adds /);
});
