import { formatInstantDay, formatInstantTime } from '../../shared-core/measure/moment.ts';
import { SheetHeading } from '../parts/Sheet.tsx';
import { useMeasure } from '../parts/use-measure.ts';

interface DayHeadingProps {
  readonly now: string;
  readonly zone: string;
}

/** The day as the heading of Today, which names the screen to those who do not see it. */
export function DayHeading({ now, zone }: DayHeadingProps) {
  const { locale } = useMeasure();
  return (
    <SheetHeading right={formatInstantTime(now, zone, locale)}>
      <span className="hidden-words">Today: </span>
      {formatInstantDay(now, zone, 'long', locale)}
    </SheetHeading>
  );
}
