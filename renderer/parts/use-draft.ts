import { useContext, useEffect, useRef, useState } from 'react';
import type { Parsed } from '../../shared-core/measure/parsed.ts';
import { FormContext, useChecked } from './form-check.ts';

interface DraftInput<T> {
  readonly value: T | null;
  readonly parse: (text: string) => Parsed<T>;
  readonly format: (value: T) => string;
  readonly onChange: (value: T | null) => void;
  readonly same: (a: T, b: T) => boolean;
  /** The error when a required field is empty; null allows that. */
  readonly emptyMessage: string | null;
  /** Set where a value takes the field away, so that a pause in the middle of a word stores nothing. */
  readonly waits: boolean;
}

export interface Draft {
  readonly text: string;
  readonly problem: string | null;
  readonly type: (text: string) => void;
  readonly commit: () => void;
  readonly giveUp: () => void;
}

/** Long enough to finish a word, short enough that little is lost when the computer sleeps, ms. */
const IDLE_MS = 700;

/**
 * The text of a field, apart from its value. It is parsed on blur, on Enter, and after a pause if it is valid; in a form that is saved as a
 * whole, with each key. Invalid text stays with an
 * error, and the record keeps its last valid value; a form that saves its fields together refuses to until the text is right.
 */
export function useDraft<T>({ value, parse, format, onChange, same, emptyMessage, waits }: DraftInput<T>): Draft {
  const [draft, setDraft] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const shown = draft ?? (value === null ? '' : format(value));
  const pending = useRef<(() => void) | null>(null);
  const isLive = useContext(FormContext)?.savesTogether === true && !waits;

  const readText = (text: string): Parsed<T | null> => {
    if (text.trim() !== '') return parse(text);
    return emptyMessage === null ? { ok: true, value: null } : { ok: false, message: emptyMessage };
  };
  const store = (text: string, aloud: boolean): void => {
    const read = readText(text);
    if (!read.ok) {
      if (aloud) setProblem(read.message);
      return;
    }
    const isSame = value === null || read.value === null ? value === read.value : same(value, read.value);
    if (!isSame) onChange(read.value);
    if (aloud) settle();
  };
  const settle = () => {
    // The value may take the field away, which must not store the text again.
    pending.current = null;
    setDraft(null);
    setProblem(null);
  };

  useChecked(() => {
    const read = draft === null ? null : readText(draft);
    if (read?.ok === false) setProblem(read.message);
    return read?.ok !== false;
  }, problem !== null);

  // Saves the latest text once: after a pause, when the page is hidden or closed, or when the field is unmounted.
  const flush = useRef(() => {
    const keepNow = pending.current;
    pending.current = null;
    keepNow?.();
  }).current;
  useEffect(() => {
    pending.current = draft === null ? null : () => store(draft, false);
  });
  useEffect(() => {
    if (draft === null || waits) return undefined;
    const timer = setTimeout(flush, IDLE_MS);
    return () => clearTimeout(timer);
  }, [draft, waits, flush]);
  useEffect(() => {
    window.addEventListener('pagehide', flush);
    document.addEventListener('visibilitychange', flush);
    return () => {
      window.removeEventListener('pagehide', flush);
      document.removeEventListener('visibilitychange', flush);
      flush();
    };
  }, [flush]);

  return {
    text: shown,
    problem,
    type: (text) => {
      setDraft(text);
      if (problem !== null && parse(text).ok) setProblem(null);
      if (isLive) store(text, false);
    },
    commit: () => {
      if (draft !== null) store(draft, true);
      else if (value === null && emptyMessage !== null) setProblem(emptyMessage);
    },
    giveUp: settle,
  };
}
