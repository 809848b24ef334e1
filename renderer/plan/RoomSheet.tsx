import type { ComponentProps, ReactNode } from 'react';
import { roomHref } from '../parts/job/stage-words.ts';
import { LinkWord } from '../parts/Buttons.tsx';
import { Sheet, BlockPart, SheetHeading } from '../parts/Sheet.tsx';
import { ResultNotice } from '../parts/Dialog.tsx';
import { useSmall } from '../parts/use-small.ts';
import { changeNotice } from './reported-changes.ts';
import { useRoom, type RoomAtHand } from './use-room.ts';
import { joined } from '../../shared-core/measure/list.ts';
import './RoomSheet.css';

type SheetProps = ComponentProps<typeof Sheet>;

interface RoomSheetProps extends Omit<SheetProps, 'page' | 'who' | 'keyPlan' | 'stages'> {
  readonly roomAtHand: RoomAtHand;
  readonly shows: 'plan' | 'readings';
}

const ROUTES = { plan: '/plan', readings: '/readings' } as const;

/** A screen about one room of a property: its customer, the other rooms, and the way back to the job. */
export function RoomSheet({ roomAtHand, shows, block, children, ...sheet }: RoomSheetProps) {
  const { room, property, customer, houseRooms, job, jobRoom } = roomAtHand;
  const small = useSmall();
  const name = customer?.name ?? room.name;
  const ways = (
    <BlockPart>
      <nav className="words room-links" aria-label="This room">
        <LinkWord href={`/plan/${room.id}`} current={shows === 'plan'}>
          Plan
        </LinkWord>
        <LinkWord href={`/readings/${room.id}`} current={shows === 'readings'}>
          Readings
        </LinkWord>
        {job !== null && jobRoom !== null && <LinkWord href={roomHref(job.id, room.id)}>Back to job {job.number}</LinkWord>}
        {property !== null && <LinkWord href={`/properties/${property.id}`}>Property</LinkWord>}
      </nav>
      {houseRooms.length > 1 && (
        <nav className="words room-links room-links-rooms" aria-label="Rooms of the property">
          {houseRooms.map((other) => (
            <LinkWord key={other.id} href={`${ROUTES[shows]}/${other.id}`} current={other.id === room.id} quiet>
              {other.name}
            </LinkWord>
          ))}
        </nav>
      )}
    </BlockPart>
  );
  return (
    <Sheet
      {...sheet}
      pinned
      datumSticks="on a desk"
      page={job === null ? 'Customers' : 'Jobs'}
      who={{
        name,
        short: customer === null ? room.name : `${room.name}, ${customer.name}`,
        ...(property === null ? {} : { where: joined([property.address.line, property.address.city]) }),
        ...(job === null ? {} : { right: `Job ${job.number}` }),
      }}
      block={
        <>
          {!small && ways}
          {block}
          {small && ways}
        </>
      }
    >
      <ResultNotice message={changeNotice.use()} onClose={changeNotice.set} />
      {children}
    </Sheet>
  );
}

interface WithRoomProps {
  readonly roomId: string;
  readonly children: (roomAtHand: RoomAtHand) => ReactNode;
}

/** Loads the room, or says that it was not found. */
export function WithRoom({ roomId, children }: WithRoomProps) {
  const roomAtHand = useRoom(roomId);
  if (roomAtHand === undefined) return <p className="app-opening caption">Loading…</p>;
  if (roomAtHand !== null) return children(roomAtHand);
  return (
    <Sheet page="Customers" who={{ name: 'Room not found' }}>
      <SheetHeading under="It may have been archived, or this link is for other data.">Room not found</SheetHeading>
      <p>
        <LinkWord href="/customers">Go to Customers</LinkWord>
      </p>
    </Sheet>
  );
}
