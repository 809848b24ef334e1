/** Logs errors and rejections that nothing caught, and shows a message. */
import { onDatabaseFault } from '../book/command.ts';
import { askDesk } from '../desk/desk-client.ts';
import { heldValue } from '../desk/held-value.ts';

const LOG_CHARACTERS = 8000;
/** Browsers report this for layouts that settle late. It is not a failure. */
const HARMLESS = /ResizeObserver loop/;

/** The message of the last uncaught failure; null once it was closed. */
export const pageFailure = heldValue<string | null>(null);

const textOf = (error: unknown): string => (error instanceof Error ? (error.stack ?? `${error.name}: ${error.message}`) : String(error));
const log = (error: unknown, where: string): void => {
  void askDesk('log.write', { level: 'error', message: `${where}: ${textOf(error)}`.slice(0, LOG_CHARACTERS) }).catch(() => undefined);
};

export function reportPageFailure(error: unknown): void {
  const words = error instanceof Error ? error.message : String(error);
  if (HARMLESS.test(words)) return;
  log(error, 'not caught');
  pageFailure.set(
    'Something went wrong, and it was written to the log. What you saved is safe. Repeat the last step, or restart Straightedge.',
  );
}

export function watchPageFailures(): () => void {
  const erred = (event: ErrorEvent): void => reportPageFailure(event.error ?? event.message);
  const rejected = (event: PromiseRejectionEvent): void => reportPageFailure(event.reason);
  window.addEventListener('error', erred);
  window.addEventListener('unhandledrejection', rejected);
  const stop = onDatabaseFault((error) => log(error, 'database'));
  return () => {
    window.removeEventListener('error', erred);
    window.removeEventListener('unhandledrejection', rejected);
    stop();
  };
}
