import { useMemo } from 'react';
import { roomFloor, type RoomFloor } from '../../shared-core/pour/placed-floor.ts';
import type { WhichSurvey } from '../book/plan-commands.ts';
import { useOfPours, useWhere } from '../book/use-records.ts';

/** The floor of a room in relation to a job's pours; undefined while loading. */
export function useRoomFloor(jobId: string | null, roomId: string): RoomFloor | undefined {
  const pours = useWhere('pours', 'jobId', jobId);
  const events = useOfPours(pours?.map((pour) => pour.id));
  return useMemo(
    () => (pours === undefined || events === undefined ? undefined : roomFloor(pours, events, roomId)),
    [pours, events, roomId],
  );
}

/** Which survey the room is being read for. */
export function surveyDue({ extent }: Pick<RoomFloor, 'extent'>): WhichSurvey {
  return extent === 'whole' ? 'after' : extent === 'partly' ? 'rest' : 'before';
}
