import { useEffect, useRef } from 'react';
import { ALARM_TONES } from './use-tone.ts';

/** What to speak, and what it is of: words that only change a figure are not spoken again. */
interface Spoken {
  readonly of: string;
  readonly words: string;
}

/** Speaks each new message once, if the voice is on and available; otherwise plays three tones. */
export function useVoice(messages: readonly Spoken[], on: boolean, play: (tones: readonly number[]) => void): void {
  const spoken = useRef<ReadonlySet<string>>(new Set());
  useEffect(() => {
    const fresh = messages.filter(({ of }) => !spoken.current.has(of));
    // A message that returns is spoken again.
    spoken.current = new Set(messages.map(({ of }) => of));
    if (fresh.length === 0) return;
    if (!on || typeof speechSynthesis === 'undefined') return play(ALARM_TONES);
    for (const { words } of fresh) speechSynthesis.speak(new SpeechSynthesisUtterance(words));
  }, [messages, on, play]);
  useEffect(
    () => () => {
      if (typeof speechSynthesis !== 'undefined') speechSynthesis.cancel();
    },
    [],
  );
}
