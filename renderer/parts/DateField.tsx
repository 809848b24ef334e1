import { useRef } from 'react';
import { formatDay, parseDay } from '../../shared-core/measure/day.ts';
import { Field, type FieldCommon } from './Field.tsx';
import { useMeasure } from './use-measure.ts';

interface DateFieldProps extends FieldCommon<string> {
  /** Today, to resolve `tomorrow` and dates without a year. */
  readonly today: string;
  /** Later dates are refused. */
  readonly latest?: string;
}

/** A date, entered or picked from the system's calendar. The value is `2026-05-12`. */
export function DateField({ today, latest, ...rest }: DateFieldProps) {
  const { locale } = useMeasure();
  const native = useRef<HTMLInputElement>(null);
  return (
    <Field
      {...rest}
      parse={(text) => {
        const read = parseDay(text, today, locale, latest !== undefined && latest <= today ? 'past' : 'coming');
        if (!read.ok) return read;
        if (latest !== undefined && read.value > latest) {
          return {
            ok: false,
            message: `Enter ${formatDay(latest, 'dated', locale)} or earlier.`,
          };
        }
        return read;
      }}
      format={(day) => formatDay(day, 'dated', locale)}
      within={
        <>
          <button
            type="button"
            className="field-pick"
            aria-label={`${rest.label}: calendar`}
            disabled={rest.disabled ?? false}
            onClick={() => native.current?.showPicker()}
          >
            <svg width="18" height="18" viewBox="0 0 18 18" aria-hidden="true">
              <path d="M1 4.5H17M1 4.5V17H17V4.5M5 1V7M13 1V7M1 10.5H17M6.5 10.5V17M11.5 10.5V17" fill="none" stroke="var(--ink)" />
            </svg>
          </button>
          <input
            ref={native}
            type="date"
            className="field-pick-native"
            tabIndex={-1}
            aria-hidden="true"
            value={rest.value ?? ''}
            max={latest}
            onChange={(event) => rest.onChange(event.target.value === '' ? null : event.target.value)}
          />
        </>
      }
    />
  );
}
