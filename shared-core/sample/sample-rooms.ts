/** The sample's rooms: their layers, fixtures, readings, and tests. */
import type { Room } from '../book/room.ts';
import { abaraRooms } from './rooms-abara.ts';
import { finishedRooms } from './finished-jobs.ts';
import { lindqvistRooms } from './rooms-lindqvist.ts';
import { odellRooms } from './rooms-odell.ts';
import { ruskRooms } from './rooms-rusk.ts';
import { tremaineRooms } from './rooms-tremaine.ts';
import type { SampleClock } from './sample-time.ts';

/** Every room of the sample. */
export function sampleRooms(clock: SampleClock): Room[] {
  return [
    ...odellRooms(clock),
    ...abaraRooms(clock),
    ...lindqvistRooms(clock),
    ...ruskRooms(clock),
    ...tremaineRooms(clock),
    ...finishedRooms(clock),
  ];
}
