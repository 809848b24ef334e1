import { FieldProblem } from '../parts/Field.tsx';
import { useEffect, useState } from 'react';
import { formatDataSize } from '../../shared-core/measure/data-size.ts';
import type { Gives } from '../../shared-core/desk/calls.ts';
import { askDesk } from '../desk/desk-client.ts';
import { LinkWord, TextButton } from '../parts/Buttons.tsx';
import { StateShape } from '../parts/StateShape.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { useMeasure } from '../parts/use-measure.ts';

interface Room {
  readonly persisted: boolean;
  readonly usedBytes: number | null;
  readonly leftBytes: number | null;
}

const roomLeft = async (): Promise<Room> => {
  if (!('storage' in navigator)) return { persisted: false, usedBytes: null, leftBytes: null };
  const [persisted, { usage, quota }] = await Promise.all([navigator.storage.persisted(), navigator.storage.estimate()]);
  return {
    persisted,
    usedBytes: usage ?? null,
    leftBytes: usage === undefined || quota === undefined ? null : Math.max(0, quota - usage),
  };
};

function storageWords(room: Room | null, locale: string): string {
  if (room?.usedBytes === null || room === null) return 'Your data is on this computer only.';
  const used = `Your data is on this computer only: ${formatDataSize(room.usedBytes, locale)}`;
  return room.leftBytes === null ? `${used}.` : `${used}, with ${formatDataSize(room.leftBytes, locale)} free.`;
}

export function BackupPart() {
  const { locale } = useMeasure();
  const [about, setAbout] = useState<Gives<'desk.about'> | string | null>(null);
  const [room, setRoom] = useState<Room | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => {
    void askDesk('desk.about', {}).then((answer) => setAbout(answer.ok ? answer.value : answer.error.message));
    void roomLeft().then(setRoom);
  }, []);
  const askToKeep = async (): Promise<void> => {
    const granted = await navigator.storage.persist();
    setProblem(
      granted ? null : 'The browser refused. Back up often, and do not clear site data. The desktop program does not have this limit.',
    );
    setRoom(await roomLeft());
  };
  return (
    <BlockPart heading="Storage">
      <div className="stack-close">
        <p>{storageWords(room, locale)}</p>
        {room !== null && (
          <p className="words">
            <StateShape state={room.persisted ? 'done' : 'under-way'} sizePx={14} />
            {room.persisted ? 'Saved until you delete it.' : 'The browser may delete it when the disk is full.'}
          </p>
        )}
        {room?.persisted === false && 'storage' in navigator && (
          <TextButton kind="plain" onPress={() => void askToKeep()}>
            Keep data in this browser
          </TextButton>
        )}
        <FieldProblem text={problem} />
        {typeof about === 'string' && <p className="small">{about}</p>}
        {about !== null && typeof about !== 'string' && (
          <>
            <p>
              Documents folder: <span className="settings-folder">{about.papersFolder}</span>
            </p>
            {about.can.openFiles && (
              <TextButton
                kind="plain"
                onPress={() => void askDesk('folder.open', {}).then((answer) => setProblem(answer.ok ? null : answer.error.message))}
              >
                Open folder
              </TextButton>
            )}
            <p className="small second">
              {`Straightedge ${about.version}. `}
              <LinkWord href="/licenses">Licenses</LinkWord>
            </p>
          </>
        )}
        <p>
          <LinkWord href="/backup">Backups</LinkWord>
        </p>
      </div>
    </BlockPart>
  );
}
