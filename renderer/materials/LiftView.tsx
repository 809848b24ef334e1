import { liftPicture } from '../../shared-core/drawing/lift-picture.ts';
import type { EffectiveSheet } from '../../shared-core/material/sheet.ts';
import { INCH_M } from '../../shared-core/measure/length-units.ts';
import { formatDepth } from '../../shared-core/measure/length-format.ts';
import { formatMass } from '../../shared-core/measure/mass.ts';
import { DrawingView, useSize } from '../parts/DrawingView.tsx';
import { UnitText } from '../parts/UnitText.tsx';
import { useMeasure } from '../parts/use-measure.ts';

/** Pixels per CSS inch, which printers treat as a real inch. */
const PX_PER_M = 96 / INCH_M;
const TALLEST_PX = 236;
const WIDTH_PX = 424;
const ROOM_UNDER_PX = 58;
const SCALES = [
  { share: 1, words: 'drawn full size' },
  { share: 1 / 2, words: 'drawn half size' },
  { share: 1 / 4, words: 'drawn at a quarter size' },
  { share: 1 / 10, words: 'drawn at a tenth size' },
] as const;

/** The thickest and thinnest permitted pour, to scale, with what happens beyond each. */
export function LiftView({ sheet }: { readonly sheet: EffectiveSheet }) {
  const { units, locale } = useMeasure();
  const { ref, size } = useSize<HTMLElement>('lift');
  const depth = (m: number): string => formatDepth(m, units, locale);
  const { least, most } = sheet.liftM.value;
  const extended = sheet.liftExtendedM?.value.most ?? null;
  const gravel = sheet.aggregateShare === null ? null : formatMass(sheet.aggregateShare.value * sheet.bagKg.value, units, locale);
  const tallestM = Math.max(most, extended ?? 0);
  const scale = SCALES.find((s) => tallestM * PX_PER_M * s.share <= TALLEST_PX) ?? SCALES[3];
  const px = (m: number): number => Math.min(TALLEST_PX, m * PX_PER_M * scale.share);
  const beyond = extended === null ? 'place a second lift' : 'add aggregate';
  const text = `One lift, ${scale.words}. Minimum ${depth(least)}. Over ${depth(most)}, ${beyond}.`;
  return (
    <figure ref={ref} className="lift-view">
      <figcaption className="small lift-sentence">
        <UnitText>{text}</UnitText>
      </figcaption>
      <DrawingView
        label={`${text}${extended === null ? '' : ` With aggregate up to ${depth(extended)}.`}`}
        drawing={liftPicture({
          widthPx: Math.min(WIDTH_PX, Math.max(300, size?.widthPx ?? WIDTH_PX)),
          heightPx: Math.round(px(tallestM)) + ROOM_UNDER_PX,
          leastPx: px(least),
          mostPx: px(most),
          extendedPx: extended === null ? null : px(extended),
          leastText: depth(least),
          mostText: depth(most),
          extendedText: extended === null ? '' : depth(extended),
          neatWords: 'without aggregate',
          extendedWords: gravel === null ? 'with aggregate' : `with ${gravel} of pea gravel`,
        })}
      />
    </figure>
  );
}
