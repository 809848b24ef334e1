import { useMemo } from 'react';
import { roomFloor, type RoomFloor } from '../../shared-core/pour/placed-floor.ts';
import type { WhichSurvey } from '../book/plan-commands.ts';
import { useOfPours, useWhere } from '../book/use-records.ts';

/** Where the floor of a room stands over the pours of a job; undefined while it is being read. */
export function useRoomFloor(jobId: string | null, roomId: string): RoomFloor | undefined {
  const pours = useWhere('pours', 'jobId', jobId);
  const events = useOfPours(pours?.map((pour) => pour.id));
  return useMemo(
    () => (pours === undefined || events === undefined ? undefined : roomFloor(pours, events, roomId)),
    [pours, events, roomId],
  );
}

/** The survey a room is read for now. */
export function surveyDue({ extent }: Pick<RoomFloor, 'extent'>): WhichSurvey {
  return extent === 'whole' ? 'after' : extent === 'partly' ? 'rest' : 'before';
}
