import type { Point } from '../../shared-core/book/fields.ts';
import { formatPercent } from '../../shared-core/measure/percent.ts';
import { TextButton } from '../parts/Buttons.tsx';
import { placeLetter } from '../parts/plan-places.ts';
import { useMeasure } from '../parts/use-measure.ts';
import type { Surveyed } from './readings-picture.ts';

interface WorthPlacesProps {
  readonly worth: Surveyed['floor']['worthReading'];
  readonly onAim: (point: Point) => void;
}

/** The few places where one more reading would reduce the uncertainty most. Pressing one makes it the next target. */
export function WorthPlaces({ worth, onAim }: WorthPlacesProps) {
  const { locale } = useMeasure();
  return (
    <div className="words">
      {worth.map((place, i) => (
        <TextButton key={`${place.xM},${place.yM}`} onPress={() => onAim({ xM: place.xM, yM: place.yM })}>
          Read point {placeLetter(i)}: {formatPercent(place.share, 0, locale)} of uncertainty
        </TextButton>
      ))}
    </div>
  );
}
