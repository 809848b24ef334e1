import { useEffect, useState } from 'react';
import { formatDataSize } from '../../shared-core/measure/data-size.ts';
import type { Gives } from '../../shared-core/desk/calls.ts';
import { askDesk } from '../parts/desk-client.ts';
import { LinkWord } from '../parts/LinkWord.tsx';
import { StateShape } from '../parts/StateShape.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { BlockPart } from '../parts/TitleBlock.tsx';
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

/** Where everything is kept, and how much room is left. */
export function BackupPart() {
  const { locale } = useMeasure();
  const [about, setAbout] = useState<Gives<'desk.about'> | string | null>(null);
  const [room, setRoom] = useState<Room | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => {
    let gone = false;
    void askDesk('desk.about', {}).then((answer) => {
      if (!gone) setAbout(answer.ok ? answer.value : answer.error.message);
    });
    void roomLeft().then((found) => {
      if (!gone) setRoom(found);
    });
    return () => {
      gone = true;
    };
  }, []);
  const askToKeep = async (): Promise<void> => {
    const granted = await navigator.storage.persist();
    setProblem(
      granted
        ? null
        : 'The browser did not promise it. Keep backups, and do not let it clear this site’s data; the desktop program needs no promise.',
    );
    setRoom(await roomLeft());
  };
  return (
    <BlockPart heading="Where it is kept">
      <div className="settings-backup">
        <p>
          The book is on this computer and nowhere else
          {room?.usedBytes === null || room === null ? '.' : `: ${formatDataSize(room.usedBytes, locale)} of it`}
          {room?.leftBytes === null || room === null ? '' : `, with room for ${formatDataSize(room.leftBytes, locale)} more.`}
        </p>
        {room !== null && (
          <p className="settings-state">
            <StateShape state={room.persisted ? 'done' : 'under-way'} sizePx={14} />
            {room.persisted ? 'It is kept until you remove it.' : 'The browser may clear it when the disk runs full.'}
          </p>
        )}
        {room?.persisted === false && 'storage' in navigator && (
          <TextButton kind="plain" onPress={() => void askToKeep()}>
            Ask it to keep the book
          </TextButton>
        )}
        {problem !== null && (
          <p className="field-problem" role="alert">
            {problem}
          </p>
        )}
        {typeof about === 'string' && <p className="small">{about}</p>}
        {about !== null && typeof about !== 'string' && (
          <>
            <p>
              Papers go to <span className="settings-folder">{about.papersFolder}</span>
            </p>
            {about.can.openFiles && (
              <TextButton
                kind="plain"
                onPress={() => void askDesk('folder.open', {}).then((answer) => setProblem(answer.ok ? null : answer.error.message))}
              >
                Open the folder
              </TextButton>
            )}
            <p className="small second">
              Straightedge {about.version}. <LinkWord href="/licenses">Licenses of what it is made of</LinkWord>
            </p>
          </>
        )}
        <p>
          <LinkWord href="/backup">Copies of the book, and taking one back</LinkWord>
        </p>
      </div>
    </BlockPart>
  );
}
