import { useEffect, useRef } from 'react';

/** Speaks each new sentence once where the host has a voice. */
export function useVoice(sentences: readonly string[], on: boolean): void {
  const spoken = useRef<ReadonlySet<string>>(new Set());
  useEffect(() => {
    const fresh = sentences.filter((sentence) => !spoken.current.has(sentence));
    // A sentence that went away may come back and is spoken again.
    spoken.current = new Set(sentences);
    if (!on || typeof speechSynthesis === 'undefined') return;
    for (const sentence of fresh) speechSynthesis.speak(new SpeechSynthesisUtterance(sentence));
  }, [sentences, on]);
  useEffect(
    () => () => {
      if (typeof speechSynthesis !== 'undefined') speechSynthesis.cancel();
    },
    [],
  );
}
