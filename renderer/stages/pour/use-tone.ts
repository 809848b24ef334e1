import { useEffect, useRef } from 'react';
import type { PourEvent } from '../../../shared-core/book/pour-record.ts';

const SEARCH_TEXTS: Partial<Record<PourEvent['kind'], readonly number[]>> = {
  mixed: [520],
  placed: [780],
  'lane-finished': [780, 1040],
  undone: [520, 390],
};

/** A short tone once an entry is on the disk: one up for a batch, two for a strip, falling for one taken back. */
export function useTone(last: PourEvent | null, on: boolean): void {
  const audio = useRef<AudioContext | null>(null);
  const isOn = useRef(on);
  useEffect(() => {
    isOn.current = on;
  });
  useEffect(() => {
    // Read when the entry comes; turning the sound on repeats no tone.
    if (last === null || !isOn.current || typeof AudioContext === 'undefined') return;
    audio.current ??= new AudioContext();
    const { currentTime, destination } = audio.current;
    for (const [i, hertz] of (SEARCH_TEXTS[last.kind] ?? [660]).entries()) {
      const tone = audio.current.createOscillator();
      const gain = audio.current.createGain();
      tone.frequency.value = hertz;
      gain.gain.setValueAtTime(0.25, currentTime + i * 0.14);
      gain.gain.exponentialRampToValueAtTime(0.001, currentTime + i * 0.14 + 0.13);
      tone.connect(gain).connect(destination);
      tone.start(currentTime + i * 0.14);
      tone.stop(currentTime + i * 0.14 + 0.14);
    }
  }, [last]);
  useEffect(() => () => void audio.current?.close(), []);
}
