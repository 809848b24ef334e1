/** An IndexedDB in memory stands before any module asks for one; properties wander on a desk and are repeatable where a build is judged. */
import 'fake-indexeddb/auto';
import fc from 'fast-check';

/** The day of the sample. Any other would do: what a desk's random runs find is mended, and this run stays as it was. */
const SEED = 20_260_512;

if (process.env['CI'] !== undefined) fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: SEED });
