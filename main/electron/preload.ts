/** Exposes the desk calls of the contract to the page, and nothing else of the shell. */
import { contextBridge, ipcRenderer } from 'electron';
import { CALL_NAMES } from '../../shared-core/desk/call-names.ts';

const calls: Record<string, (input: unknown) => Promise<unknown>> = {};
for (const name of CALL_NAMES) calls[name] = (input) => ipcRenderer.invoke(`desk:${name}`, input);
contextBridge.exposeInMainWorld('straightedgeDesk', calls);
