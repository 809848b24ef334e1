import { formatInstantDay, formatInstantTime } from '../../shared-core/measure/moment.ts';
import { SheetHeading } from '../parts/Sheet.tsx';

interface DayHeadingProps {
  readonly now: string;
  readonly zone: string;
  readonly locale: string;
}

/** The day as the heading of Today, which names the screen to those who do not see it. */
export function DayHeading({ now, zone, locale }: DayHeadingProps) {
  return (
    <SheetHeading right={formatInstantTime(now, zone, locale)}>
      <span className="hidden-words">Today: </span>
      {formatInstantDay(now, zone, 'long', locale)}
    </SheetHeading>
  );
}
