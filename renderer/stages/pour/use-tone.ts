import { useCallback, useEffect, useRef } from 'react';
import type { PourEvent } from '../../../shared-core/book/pour-record.ts';

/** Rising for a batch, two for a lane, falling for an undone one, Hz. */
const TONES: Partial<Record<PourEvent['kind'], readonly number[]>> = {
  mixed: [520],
  placed: [780],
  'lane-finished': [780, 1040],
  undone: [520, 390],
};

/** Three high tones: look at the screen. */
export const ALARM_TONES = [1175, 1175, 1175] as const;

export const tonesOf = (entry: PourEvent): readonly number[] => TONES[entry.kind] ?? [660];

/** Returns a function that plays tones, Hz, if sound is on. */
export function useTone(on: boolean): (tones: readonly number[]) => void {
  const audio = useRef<AudioContext | null>(null);
  const isOn = useRef(on);
  useEffect(() => {
    isOn.current = on;
  });
  const play = useCallback((tones: readonly number[]) => {
    if (!isOn.current || typeof AudioContext === 'undefined') return;
    audio.current ??= new AudioContext();
    const { currentTime, destination } = audio.current;
    for (const [i, hertz] of tones.entries()) {
      const tone = audio.current.createOscillator();
      const gain = audio.current.createGain();
      tone.frequency.value = hertz;
      gain.gain.setValueAtTime(0.25, currentTime + i * 0.14);
      gain.gain.exponentialRampToValueAtTime(0.001, currentTime + i * 0.14 + 0.13);
      tone.connect(gain).connect(destination);
      tone.start(currentTime + i * 0.14);
      tone.stop(currentTime + i * 0.14 + 0.14);
    }
  }, []);
  useEffect(() => () => void audio.current?.close(), []);
  return play;
}
