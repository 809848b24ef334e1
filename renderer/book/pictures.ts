/** The bytes of photos, each stored once under its hash. */
import { book, type Picture } from './database.ts';
import { type Outcome, stored } from './command.ts';

/** The photos of this list whose bytes are stored here. */
export async function heldPictures(names: readonly string[]): Promise<Set<string>> {
  return new Set(
    await book()
      .pictures.where('name')
      .anyOf([...names])
      .primaryKeys(),
  );
}

export async function readPicture(name: string): Promise<Uint8Array | null> {
  return (await book().pictures.get(name))?.data ?? null;
}

/** Stores bytes of photos. Existing ones stay, because the name is the hash of the content. */
export function storePictures(pictures: readonly Picture[], into = book()): Promise<Outcome> {
  return stored(() => into.pictures.bulkPut([...pictures]));
}
