/**
 * Provides an IndexedDB in memory before any module asks for one, fixes the seed of every property test, which a failure prints, and removes
 * scratch folders.
 */
import 'fake-indexeddb/auto';
import fc from 'fast-check';
import { afterAll } from 'vitest';
import { SEED } from './moments.ts';
import { removeScratchFolders } from './scratch-folder.ts';

fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: SEED });

afterAll(removeScratchFolders);
