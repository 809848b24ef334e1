import { useEffect, useRef } from 'react';
import { ALARM_TONES } from './use-tone.ts';

/** Speaks each new sentence once, if the voice is on and available; otherwise plays three tones. */
export function useVoice(sentences: readonly string[], on: boolean, play: (tones: readonly number[]) => void): void {
  const spoken = useRef<ReadonlySet<string>>(new Set());
  useEffect(() => {
    const fresh = sentences.filter((sentence) => !spoken.current.has(sentence));
    // A sentence that returns is spoken again.
    spoken.current = new Set(sentences);
    if (fresh.length === 0) return;
    if (!on || typeof speechSynthesis === 'undefined') return play(ALARM_TONES);
    for (const sentence of fresh) speechSynthesis.speak(new SpeechSynthesisUtterance(sentence));
  }, [sentences, on, play]);
  useEffect(
    () => () => {
      if (typeof speechSynthesis !== 'undefined') speechSynthesis.cancel();
    },
    [],
  );
}
