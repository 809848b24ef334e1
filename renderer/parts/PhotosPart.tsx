import { useEffect, useEffectEvent, useState } from 'react';
import type { Photo } from '../../shared-core/book/papers.ts';
import { formatInstant } from '../../shared-core/measure/moment.ts';
import { Dialog } from './Dialog.tsx';
import { DropZone } from './DropZone.tsx';
import { PhotoLarge, PhotoStrip } from './photo/PhotoRow.tsx';
import { photoTakenAt, PHOTO_TYPES, refusePhoto } from './photo-file.ts';
import { type ScaledPhoto, scalePhoto } from './scale-photo.ts';
import { TextButton } from './Buttons.tsx';
import { TextField } from './Fields.tsx';
import { useMeasure } from './use-measure.ts';

type Answer = { readonly ok: true } | { readonly ok: false; readonly message: string };

/** The photos of a room with their commands. */
export interface PhotoAlbum {
  readonly photos: readonly Photo[];
  readonly read: (name: string) => Promise<Uint8Array | null>;
  readonly add: (
    picture: ScaledPhoto & { readonly takenAt: string; readonly caption: string },
  ) => Promise<Answer & { readonly value?: string }>;
  readonly caption: (id: string, caption: string) => Promise<Answer>;
  readonly deleteEntry: (id: string) => Promise<Answer>;
}

interface PhotosPartProps {
  readonly album: PhotoAlbum;
  readonly zone: string;
  readonly label: string;
  /** Shows only these, for a part about one line; all photos of the room by default. */
  readonly only?: readonly string[];
  readonly caption?: string;
  /** Takes a paste from anywhere on the screen. */
  readonly takesPaste?: boolean;
  readonly onSaved?: (photoId: string) => void;
}

/** Photos of a room: chosen, dropped or pasted, then resized without location data. */
export function PhotosPart({ album, zone, label, only, caption = '', takesPaste = true, onSaved }: PhotosPartProps) {
  const photos = album.photos.filter((photo) => only === undefined || only.includes(photo.id));
  const [problem, setProblem] = useState<string | null>(null);
  const [isBusy, setBusy] = useState(false);
  const [shown, setShown] = useState<string | null>(null);
  const takeOne = async (file: File): Promise<Answer> => {
    const scaled = await scalePhoto(file);
    if (!scaled.ok) return scaled;
    const takenAt = (await photoTakenAt(file, zone)) ?? new Date(file.lastModified).toISOString();
    const stored = await album.add({ ...scaled.value, takenAt, caption });
    if (stored.ok && stored.value !== undefined) onSaved?.(stored.value);
    return stored;
  };
  const take = async (files: readonly File[]): Promise<void> => {
    setBusy(true);
    setProblem(null);
    const refusals: string[] = [];
    for (const file of files) {
      const taken = await takeOne(file).catch((): Answer => ({ ok: false, message: `${file.name} could not be added. Choose it again.` }));
      if (!taken.ok) refusals.push(taken.message);
    }
    setBusy(false);
    setProblem(refusals.length === 0 ? null : refusals.join(' '));
  };
  const pasted = useEffectEvent((files: readonly File[]) => void take(files));
  useEffect(() => {
    if (!takesPaste) return undefined;
    const paste = (event: ClipboardEvent): void => {
      const files = [...(event.clipboardData?.files ?? [])];
      if (files.length === 0) return;
      event.preventDefault();
      pasted(files);
    };
    document.addEventListener('paste', paste);
    return () => document.removeEventListener('paste', paste);
  }, [takesPaste]);
  const one = photos.find((photo) => photo.id === shown) ?? null;
  return (
    <section className="stack" aria-label={label}>
      <PhotoStrip photos={photos} read={album.read} onShow={({ id }) => setShown(id)} />
      <DropZone
        label={label}
        chooseWord="Add photos"
        accept={PHOTO_TYPES}
        multiple
        onFiles={(files) => void take(files)}
        refuse={refusePhoto}
        problem={problem}
        hint={isBusy ? 'Loading…' : 'You can also paste photos. They are resized, and location data is removed.'}
      />
      {one !== null && <PhotoDialog key={one.id} photo={one} album={album} zone={zone} onClose={() => setShown(null)} />}
    </section>
  );
}

type PhotoDialogProps = { readonly photo: Photo; readonly album: PhotoAlbum; readonly zone: string; readonly onClose: () => void };

function PhotoDialog({ photo, album, zone, onClose }: PhotoDialogProps) {
  const { locale } = useMeasure();
  const [problem, setProblem] = useState<string | null>(null);
  return (
    <Dialog
      wide
      onClose={onClose}
      title={photo.caption === '' ? 'Photo' : photo.caption}
      problem={problem}
      actions={
        <>
          <TextButton
            kind="delete"
            onPress={() =>
              void album.deleteEntry(photo.id).then((outcome) => {
                if (outcome.ok) onClose();
                else setProblem(outcome.message);
              })
            }
          >
            Delete photo
          </TextButton>
          <TextButton kind="outlined" onPress={onClose}>
            Close
          </TextButton>
        </>
      }
    >
      <PhotoLarge photo={photo} read={album.read} />
      <TextField
        label="Caption"
        value={photo.caption}
        onChange={(caption) => void album.caption(photo.id, caption).then((outcome) => setProblem(outcome.ok ? null : outcome.message))}
      />
      {photo.takenAt !== null && <p className="caption">{formatInstant(photo.takenAt, zone, 'weekday', locale)}</p>}
    </Dialog>
  );
}
