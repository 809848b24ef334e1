import { useEffect, useState } from 'react';
import type { Photo } from '../../../shared-core/book/papers.ts';
import './photo.css';

interface PhotoRowProps {
  readonly photos: readonly Photo[];
  /** The picture of a photo; null when its bytes are not in this book. */
  readonly bytesOf: (photo: Photo) => Promise<Blob | null>;
}

/** Photos side by side, each with its words; pressed, one is shown large in a window of its own. */
export function PhotoRow({ photos, bytesOf }: PhotoRowProps) {
  if (photos.length === 0) return null;
  return (
    <ul className="photo-row">
      {photos.map((photo) => (
        <li key={photo.id}>
          <PhotoSeen photo={photo} bytesOf={bytesOf} />
        </li>
      ))}
    </ul>
  );
}

function PhotoSeen({ photo, bytesOf }: Pick<PhotoRowProps, 'bytesOf'> & { readonly photo: Photo }) {
  const [address, setAddress] = useState<string | null>(null);
  const [isGone, setGone] = useState(false);
  useEffect(() => {
    let made: string | null = null;
    let left = false;
    void bytesOf(photo).then((blob) => {
      if (left) return;
      if (blob === null) return setGone(true);
      made = URL.createObjectURL(blob);
      return setAddress(made);
    });
    return () => {
      left = true;
      if (made !== null) URL.revokeObjectURL(made);
    };
  }, [photo, bytesOf]);
  return (
    <figure className="photo-seen">
      {address === null ? (
        <p className="caption">{isGone ? 'The picture is not in this book.' : ''}</p>
      ) : (
        <a href={address} target="_blank" rel="noreferrer">
          <img src={address} alt={photo.caption} width={photo.widthPx} height={photo.heightPx} />
        </a>
      )}
      <figcaption className="caption">{photo.caption}</figcaption>
    </figure>
  );
}
