import type { ClearanceTest } from '../../../shared-core/book/cure-record.ts';
import { METHOD_NAMES } from '../../../shared-core/cure/clearance-method.ts';
import { limitText, valueText } from '../../../shared-core/cure/clearance-tests.ts';
import { formatInstant } from '../../../shared-core/measure/moment.ts';
import { addClearanceTest } from '../../book/cure-commands.ts';
import type { Outcome } from '../../book/outcome.ts';
import type { CuringRoom, Saying } from './cure-room.ts';
import { ClearanceTestForm } from './CureForms.tsx';

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
