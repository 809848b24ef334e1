import { useEffect, useRef, useState } from 'react';
import { joined } from '../../shared-core/measure/list.ts';

/** What left the page with the focus: where it stood, and what its button said. */
interface Left {
  readonly parent: Element;
  readonly next: Node | null;
  readonly words: string;
}

const DIALOG = '.dialog-ground, [role="dialog"]';
const PARTS = 'section, aside, main, footer, header';

/** Commands that the focus never falls on by itself. */
const TAKES_AWAY = /^(Archive|Delete|Discard|Remove|Void)\b/;

const isHeld = (): boolean => document.activeElement !== null && document.activeElement !== document.body;

/** The records of one change are read together: the neighbor of what left may have left too. */
function whereFrom(gone: HTMLElement, records: readonly MutationRecord[]): Left | null {
  const record = records.find(({ removedNodes }) => [...removedNodes].some((node) => node.contains(gone)));
  if (record === undefined || !(record.target instanceof Element)) return null;
  let next = record.nextSibling;
  while (next !== null && !next.isConnected) {
    const of: Node = next;
    next = records.find(({ removedNodes }) => [...removedNodes].includes(of))?.nextSibling ?? null;
  }
  return { parent: record.target, next, words: gone.textContent };
}

const isAfter = ({ parent, next }: Left, node: Element): boolean => {
  if (next !== null) return node === next || (next.compareDocumentPosition(node) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0;
  return !parent.contains(node) && (parent.compareDocumentPosition(node) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0;
};

/** The next button or link of the same part, but none that does the same to another row or deletes; else the heading of the part. */
function nextTo(left: Left): HTMLElement | null {
  for (let part = left.parent.closest(PARTS); part !== null; part = part.parentElement?.closest(PARTS) ?? null) {
    const next = [...part.querySelectorAll<HTMLElement>('button:enabled, a[href]')].find(
      (one) => isAfter(left, one) && one.textContent !== left.words && !TAKES_AWAY.test(one.textContent) && one.checkVisibility(),
    );
    const found = next ?? part.querySelector<HTMLElement>('h1, h2, h3');
    if (found !== null) return found;
  }
  return null;
}

/**
 * Keeps the focus near where it was when what had it leaves the page, such as the button of a deleted row. A screen that is left whole is
 * not followed, nor a dialog, which gives the focus back to what opened it, unless that has left as well.
 * @param seq number of the last edit
 * @param label what that edit did
 * @returns the words of the edit that took the focus away, and its number
 */
export function useKeptFocus(seq: number, label: string | null): { readonly words: string; readonly seq: number } | null {
  const [said, setSaid] = useState<{ readonly words: string; readonly seq: number } | null>(null);
  /** The last edit before the focus was lost, until the edit that took it is known. */
  const [before, setBefore] = useState<number | null>(null);
  const latest = useRef(seq);
  const pressedAt = useRef(seq);
  useEffect(() => {
    latest.current = seq;
    if (before === null || label === null || seq <= before) return;
    setSaid({ words: label, seq });
    setBefore(null);
  }, [seq, label, before]);
  useEffect(() => {
    // What was focused last on the page, and in the dialog over it.
    let page: HTMLElement | null = null;
    let dialog: HTMLElement | null = null;
    let left: Left | null = null;
    const focused = ({ target }: FocusEvent): void => {
      if (!(target instanceof HTMLElement)) return;
      if (target.closest(DIALOG) !== null) dialog = target;
      else [page, dialog, left] = [target, null, null];
    };
    // A press beside everything gives the focus up.
    const pressed = ({ target, type }: Event): void => {
      pressedAt.current = latest.current;
      if (
        type === 'pointerdown' &&
        target instanceof Element &&
        target.closest('button, a, input, select, textarea, label, [tabindex]') === null
      )
        page = null;
    };
    const mend = (): void => {
      if (isHeld() || page === null) return;
      if (dialog !== null && dialog.closest(DIALOG)?.isConnected === true) return;
      const to = page.isConnected ? page : left !== null && left.parent.isConnected ? nextTo(left) : null;
      if (to === null) return;
      if (to !== page) setBefore(pressedAt.current);
      if (/^H[1-3]$/.test(to.tagName)) to.tabIndex = -1;
      to.focus();
    };
    const changes = new MutationObserver((records) => {
      if (page === null || (page.isConnected && (dialog === null || dialog.isConnected))) return;
      if (!page.isConnected && left === null) left = whereFrom(page, records);
      // After the next frame, when a dialog has given the focus back and a screen has set its own.
      requestAnimationFrame(() => requestAnimationFrame(mend));
    });
    changes.observe(document.body, { childList: true, subtree: true });
    document.addEventListener('focusin', focused);
    document.addEventListener('pointerdown', pressed, true);
    document.addEventListener('keydown', pressed, true);
    return () => {
      changes.disconnect();
      document.removeEventListener('focusin', focused);
      document.removeEventListener('pointerdown', pressed, true);
      document.removeEventListener('keydown', pressed, true);
    };
  }, []);
  return said;
}

/**
 * Gives the window the title of its screen, and the focus to the heading of a screen that was gone to, unless the screen has given it to
 * one of its fields or a key was pressed meanwhile.
 */
export function useArrival(route: string): void {
  const from = useRef(route);
  useEffect(() => {
    let isNew = route !== from.current;
    let isAsked = false;
    from.current = route;
    const arrive = (): void => {
      isAsked = false;
      const heading = document.querySelector('h1');
      if (heading === null) return;
      const who = document.querySelector('.sheet-block')?.getAttribute('aria-label') ?? '';
      document.title = joined([...new Set([heading.textContent, who, 'Straightedge'])], ' - ');
      if (!isNew || isHeld()) return;
      heading.tabIndex = -1;
      heading.focus({ preventScroll: true });
    };
    // After the next frame, when a screen has set its own focus.
    const ask = (): void => {
      if (!isAsked) requestAnimationFrame(() => requestAnimationFrame(arrive));
      isAsked = true;
    };
    const act = (): void => {
      isNew = false;
    };
    const changes = new MutationObserver(ask);
    ask();
    changes.observe(document.body, { childList: true, subtree: true });
    document.addEventListener('pointerdown', act, true);
    document.addEventListener('keydown', act, true);
    return () => {
      changes.disconnect();
      document.removeEventListener('pointerdown', act, true);
      document.removeEventListener('keydown', act, true);
    };
  }, [route]);
}
