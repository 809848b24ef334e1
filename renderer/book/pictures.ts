/** Photos' bytes: each once, under the name its content gives it. */
import { book, type Picture } from './database.ts';
import { attempt, done, type Outcome } from './outcome.ts';

/** Which of these photos have their bytes here. */
export async function heldPictures(names: readonly string[]): Promise<Set<string>> {
  return new Set(
    await book()
      .pictures.where('name')
      .anyOf([...names])
      .primaryKeys(),
  );
}

/** The bytes of a photo; null when they are not here. */
export async function readPicture(name: string): Promise<Uint8Array | null> {
  return (await book().pictures.get(name))?.data ?? null;
}

/** Puts photos' bytes in. One that is there already stays: the name says the content. */
export function keepPictures(pictures: readonly Picture[]): Promise<Outcome> {
  return attempt(async () => {
    await book().pictures.bulkPut([...pictures]);
    return done(undefined);
  });
}
