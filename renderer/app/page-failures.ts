/** Errors and rejections that nothing caught: a line in the log, and a message on the screen. */
import { onDatabaseFault } from '../book/outcome.ts';
import { askDesk } from '../parts/desk-client.ts';

/** As long as one line of the log may be. */
const LOG_CHARACTERS = 8000;
/** The browser's own notice about layout; nothing failed. */
const HARMLESS = /ResizeObserver loop/;

let failed: string | null = null;
const listeners = new Set<() => void>();
const show = (next: string | null): void => {
  failed = next;
  for (const listen of listeners) listen();
};

const textOf = (error: unknown): string => (error instanceof Error ? (error.stack ?? `${error.name}: ${error.message}`) : String(error));
const log = (error: unknown, where: string): void => {
  void askDesk('log.write', { level: 'error', message: `${where}: ${textOf(error)}`.slice(0, LOG_CHARACTERS) }).catch(() => undefined);
};

/** The message of the last failure that nothing caught; null once it was closed. */
export function pageFailure(): string | null {
  return failed;
}

/** Calls back when that changes. Returns how to stop. */
export function onPageFailure(listen: () => void): () => void {
  listeners.add(listen);
  return () => void listeners.delete(listen);
}

/** Closes the message. */
export function closePageFailure(): void {
  show(null);
}

/** Reports one failure: to the log, and on the screen. */
export function reportPageFailure(error: unknown): void {
  const words = error instanceof Error ? error.message : String(error);
  if (HARMLESS.test(words)) return;
  log(error, 'not caught');
  show('Something went wrong, and it was written to the log. What you saved is safe. Repeat the last step, or restart Straightedge.');
}

/** Watches the page. Returns how to stop. */
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
