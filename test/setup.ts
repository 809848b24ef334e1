/** Provides an IndexedDB in memory before any module asks for one. Property tests are random on a desk and repeatable in CI. */
import 'fake-indexeddb/auto';
import fc from 'fast-check';

/** The seed of CI is any fixed number; random runs on a desk find new cases. */
const SEED = 20_260_512;

if (process.env['CI'] !== undefined) fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: SEED });
