/** An IndexedDB in memory stands before any module asks for one. */
import 'fake-indexeddb/auto';
