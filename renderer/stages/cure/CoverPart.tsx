import type { ClearanceTest, CureLog } from '../../../shared-core/book/cure-record.ts';
import { METHOD_NAMES } from '../../../shared-core/cure/clearance-method.ts';
import { limitText, valueText } from '../../../shared-core/cure/clearance-tests.ts';
import { formatInstant } from '../../../shared-core/measure/moment.ts';
import { addClearanceTest, addReadings, deleteLog } from '../../book/cure-commands.ts';
import type { Outcome } from '../../book/command.ts';
import type { CuringRoom, Saying } from './cure-room.ts';
import { ClearanceTestForm, ReadingForm } from './CureForms.tsx';
import { formatListAnd } from '../../../shared-core/measure/list.ts';
import { useMemo, useState } from 'react';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { formatTemperature } from '../../../shared-core/measure/temperature.ts';
import { TextButton } from '../../parts/Buttons.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { LogDialog } from './LogDialog.tsx';

interface CoverPartProps {
  readonly jobId: string;
  readonly room: CuringRoom;
  readonly tests: readonly ClearanceTest[];
  readonly owner: string;
  readonly say: Saying;
  readonly onOutcome: (outcome: Outcome<unknown>) => void;
}

/** The test required before flooring: its limit, its results, and whether they clear the floor. */
export function CoverPart({ jobId, room, tests, owner, say, onOutcome }: CoverPartProps) {
  const { clearance, cover } = room.schedule;
  if (clearance === null || cover === null) {
    return (
      <section className="cure-part" id="cure-test">
        <h2 className="caption">{`${room.room.name}: clearance for flooring`}</h2>
        <p className="small">No flooring is chosen. Choose it in Assess.</p>
      </section>
    );
  }
  const own = tests.filter((t) => t.roomId === room.id && t.deletedAt === null).sort((a, b) => b.takenAt.localeCompare(a.takenAt));
  return (
    <section className="cure-part" id="cure-test">
      <h2 className="caption">{`${room.room.name}: clearance for flooring`}</h2>
      <p className="small">{clearance.sentence}</p>
      <ClearanceTestForm
        methods={clearance.requirement.methods.map((m) => ({
          method: m.method,
          unit: m.unit,
          limitWords: m.limit === null ? null : limitText(m),
        }))}
        by={owner}
        now={say.now}
        zone={say.zone}
        notBefore={room.schedule.placedAt}
        onSave={(test) =>
          void addClearanceTest({ jobId, roomId: room.id, flooring: clearance.requirement.flooring, ...test }).then(onOutcome)
        }
      />
      {own.length > 0 && (
        <ul className="ends lined cure-logs">
          {own.map((t) => (
            <li key={t.id}>
              <span>
                {valueText(t)}, {METHOD_NAMES[t.method]}, {t.by}, {formatInstant(t.takenAt, say.zone, 'short', say.locale)}
                {t.note === '' ? '' : `: ${t.note}`}
              </span>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

interface AirPartProps {
  readonly jobId: string;
  readonly room: CuringRoom;
  readonly logs: readonly CureLog[];
  readonly say: Saying;
  readonly onOutcome: (outcome: Outcome<unknown>) => void;
}

/** The room's air: a reading by hand, a logger's file, and earlier readings. */
export function AirPart({ jobId, room, logs, say, onOutcome }: AirPartProps) {
  const { units, locale } = useMeasure();
  const [importing, setImporting] = useState(false);
  const own = logs.filter((l) => l.roomId === room.id && l.deletedAt === null);
  const { placedAt } = room.schedule;
  const known = useMemo(
    () => ({
      placedAtMs: Date.parse(placedAt),
      logs: logs
        .filter((l) => l.roomId === room.id && l.deletedAt === null && l.readings.length > 1)
        .map(({ name, readings }) => ({
          name,
          fromMs: Date.parse(readings[0]?.instant ?? ''),
          toMs: Date.parse(readings.at(-1)?.instant ?? ''),
        })),
    }),
    [logs, room.id, placedAt],
  );
  const { gaps } = room.schedule.log;
  const timeText = (ms: number): string => formatInstant(new Date(ms).toISOString(), say.zone, 'short', locale);
  const gapTexts = [
    ...gaps.slice(0, 3).map((g) => `from ${timeText(g.fromMs)} to ${timeText(g.toMs)}`),
    ...(gaps.length > 3 ? [`${gaps.length - 3} more times`] : []),
  ];
  return (
    <section className="cure-part">
      <h2 className="caption">{`${room.room.name}: air readings`}</h2>
      <ReadingForm
        now={say.now}
        zone={say.zone}
        notBefore={room.schedule.placedAt}
        onSave={(readings) => void addReadings(jobId, room.id, readings, 'by-hand', 'entered by you').then(onOutcome)}
      />
      <TextButton onPress={() => setImporting(true)}>Import logger file</TextButton>
      {own.length > 0 && (
        <ul className="ends lined cure-logs">
          {own.map((log) => (
            <li key={log.id}>
              <span>{logLine(log, say, units, locale)}</span>
              <TextButton
                kind="plain"
                label={`Delete ${log.name}, ${logLine(log, say, units, locale)}`}
                onPress={() => void deleteLog(log).then(onOutcome)}
              >
                Delete
              </TextButton>
            </li>
          ))}
        </ul>
      )}
      {gaps.length > 0 && (
        <p className="small">{`No readings ${formatListAnd(gapTexts)}. A gap is filled with a straight line between its ends.`}</p>
      )}
      {importing && (
        <LogDialog
          zone={say.zone}
          known={known}
          units={units}
          onClose={() => setImporting(false)}
          onTake={(readings, name, source) => {
            setImporting(false);
            void addReadings(jobId, room.id, readings, source, name).then(onOutcome);
          }}
        />
      )}
    </section>
  );
}

/** One log in a line: a reading with its value, a file with its period. */
function logLine(log: CureLog, say: Saying, units: 'us' | 'metric', locale: string): string {
  const [first] = log.readings;
  const last = log.readings.at(-1);
  if (first === undefined || last === undefined) return log.name;
  const timeText = (instant: string): string => formatInstant(instant, say.zone, 'short', locale);
  if (log.readings.length === 1) return `${formatTemperature(first.tempC, units, locale)}, ${timeText(first.instant)}`;
  return `${log.name}: ${formatNumber(log.readings.length, { most: 0 }, locale)} readings, ${timeText(first.instant)} to ${timeText(last.instant)}`;
}
