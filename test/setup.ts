/** Provides an IndexedDB in memory before any module asks for one, and fixes the seed of every property test, which a failure prints. */
import 'fake-indexeddb/auto';
import fc from 'fast-check';
import { SEED } from './moments.ts';

fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: SEED });
