/** Carries the contract over IPC: one channel per call, only from the program's own page. */
import { ipcMain } from 'electron';
import { CALL_NAMES } from '../../shared-core/desk/call-names.ts';
import { failure } from '../../shared-core/desk/envelope.ts';
import type { Dispatch } from '../desk/dispatch.ts';
import { isOwnAddress } from './scheme.ts';

export function registerCalls(dispatch: Dispatch): void {
  for (const name of CALL_NAMES) {
    ipcMain.handle(`desk:${name}`, (event, input: unknown) => {
      const frame = event.senderFrame;
      if (frame === null || frame.parent !== null || !isOwnAddress(frame.url))
        return failure('not-allowed', 'Only the Straightedge window can make this request.');
      return dispatch(name, input);
    });
  }
}
