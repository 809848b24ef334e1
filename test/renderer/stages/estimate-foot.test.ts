/** The foot of Estimate: why there is no quote yet. */
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, it } from 'vitest';
import { EstimateFoot } from '../../../renderer/stages/estimate/EstimateFoot.tsx';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { NOW, wholeOf } from '../../shared-core/job-variants.ts';

it('says that the readings are too few where most of the floor is beyond them, and not that the bags are enough', () => {
  const reading = readJob(wholeOf('26-031'), NOW);
  const roomReading = reading.rooms.find(({ estimate }) => estimate?.survey.state === 'surveyed');
  const estimate = roomReading?.estimate;
  if (roomReading === undefined || estimate?.survey.state !== 'surveyed') throw new Error('The sample has a surveyed room.');
  const { survey } = estimate;
  const said = (extrapolatedShare: number) => {
    const of = { ...roomReading, estimate: { ...estimate, survey: { ...survey, floor: { ...survey.floor, extrapolatedShare } } } };
    return renderToStaticMarkup(createElement(EstimateFoot, { reading, roomReading: of, planned: null }));
  };
  expect(said(0.1)).toContain('likely to be enough');
  expect(said(0.56)).toContain('Ballpark: too few readings for a quote');
  expect(said(0.56)).not.toContain('likely to be enough');
});
