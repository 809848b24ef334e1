import { FieldProblem } from '../../parts/Field.tsx';
import { useState } from 'react';
import { paperProblemWords } from '../../../shared-core/documents/pour-words.ts';
import { dayOfInstant, instantAt } from '../../../shared-core/measure/moment.ts';
import {
  type EdgeProblem,
  edgeProblem,
  openAfterFirst,
  paperDays,
  paperEntries,
  type PaperLine,
  paperFront,
  type PaperFront,
} from '../../../shared-core/pour/paper-log.ts';
import type { PourRecordPlan } from '../../../shared-core/pour/pour-state.ts';
import type { PourEvent } from '../../../shared-core/book/pour-record.ts';
import type { Point } from '../../../shared-core/book/fields.ts';
import type { PlanDrawing } from '../../../shared-core/drawing/plan.ts';
import { toRoom } from '../../../shared-core/drawing/plan-walls.ts';
import { newId, type Outcome } from '../../book/command.ts';
import { ActionButton, TextButton } from '../../parts/Buttons.tsx';
import { DateField, Fields, NumberField, TextField } from '../../parts/Fields.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { DrawingRoom, DrawingView } from '../../parts/DrawingView.tsx';
import { SelectField } from '../../parts/Choices.tsx';
import { isRepeated, PaperLines, type PaperRow } from './PaperLines.tsx';

/** A handwritten pour log, complete. */
export interface PaperPour {
  readonly id: string;
  readonly events: readonly PourEvent[];
  readonly bagsOnSite: number;
  readonly bagsLeft: number | null;
  readonly floor: 'whole' | 'partly';
}

interface PaperProps {
  readonly plan: PourRecordPlan;
  readonly zone: string;
  readonly now: string;
  /** The plan with lanes and last edge, to be tapped; null for several rooms or without a layout. */
  readonly picture: ((line: PaperFront['line'] | null, widthPx: number, heightPx: number) => PlanDrawing | null) | null;
  readonly onClose: () => void;
  readonly onEnter: (pour: PaperPour) => Promise<Outcome<unknown>>;
}

const FLOORS = { whole: 'all of the floor', partly: 'part of the floor' };

function firstNumbers(rows: readonly PaperRow[]): readonly number[] {
  let next = 1;
  return rows.map((row) => {
    const first = row.first ?? next;
    next = first + row.batches;
    return first;
  });
}

/** What to enter about where a partly placed floor ends. */
function edgeWords(problem: EdgeProblem, hasLanes: boolean, hasPlan: boolean): string {
  if (problem === 'all-full') return 'Every lane is full. Select all of the floor, or enter fewer full lanes.';
  if (!hasLanes) return 'These batches are all of the plan. Click or tap the plan where the last edge is.';
  return hasPlan
    ? 'These batches are all of the plan. Enter the full lanes, or click or tap the plan where the last edge is.'
    : 'These batches are all of the plan. Enter the full lanes.';
}

/** A handwritten pour log; its times count as estimates. */
export function PaperDialog({ plan, zone, now, picture, onClose, onEnter }: PaperProps) {
  const today = dayOfInstant(now, zone);
  const [day, setDay] = useState<string | null>(today);
  const [onSite, setOnSite] = useState<number | null>(null);
  const [bagsLeft, setBagsLeft] = useState<number | null>(null);
  const [floor, setFloor] = useState<'whole' | 'partly' | null>(null);
  const [lanes, setLanes] = useState<number | null>(null);
  const [lots, setLots] = useState('');
  const empty = (): PaperRow => ({ id: newId(), first: null, batches: 1, bags: plan.bagsPerBatch, clock: null, which: null });
  const [rows, setRows] = useState<readonly PaperRow[]>(() => [empty(), empty(), empty()]);
  const [front, setFront] = useState<PaperFront | null>(null);
  const [isDifferenceSaid, setDifferenceSaid] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  // One pour per open dialog, however often it is saved.
  const [id] = useState(newId);
  const [isSaving, setSaving] = useState(false);
  const set = (id: string, part: Partial<PaperRow>) =>
    setRows((current) => current.map((row) => (row.id === id ? { ...row, ...part } : row)));
  const firsts = firstNumbers(rows);
  const daysFrom = (from: string) =>
    paperDays(
      rows.map(({ clock }) => clock),
      from,
    );
  const days = daysFrom(day ?? today);
  const laneCount = plan.layout?.lanes.length ?? 0;
  const frontAt = (point: Point): PaperFront | null =>
    plan.layout === null ? null : paperFront(plan.layout, plan.layout.lanes[0]?.roomId ?? '', point);

  const linesOf = (from: string): PaperLine[] | string => {
    const lines: PaperLine[] = [];
    const days = daysFrom(from);
    for (const [i, row] of rows.entries()) {
      const onDay = days[i] ?? from;
      if (row.clock === null) continue;
      if (row.which === null && isRepeated(onDay, row.clock, zone))
        return `Line ${i + 1}: this time comes twice that day. Select which of the two.`;
      const read = instantAt(onDay, row.clock, zone, row.which ?? 'first');
      if (!read.ok) return `Line ${i + 1}: ${read.message}`;
      const first = firsts[i] ?? 1;
      lines.push({ batch: first, toBatch: first + row.batches - 1, bags: row.bags ?? 0, placedAt: read.value.instant });
    }
    return lines;
  };
  const enter = (): void => {
    if (day === null) return setProblem('Enter the date of the pour.');
    if (onSite === null) return setProblem('Enter the bags on site at the start.');
    if (floor === null) return setProblem('Select how much of the floor was placed.');
    const lines = linesOf(day);
    if (typeof lines === 'string') return setProblem(lines);
    const last = lines.at(-1);
    if (last === undefined) return setProblem('Enter the time of at least one batch.');
    if (lines.some((line) => line.placedAt > now)) return setProblem('A batch is in the future. Check the date and the times.');
    const entries = paperEntries(plan, id, 1, lines, newId);
    if (!entries.ok) return setProblem(paperProblemWords(entries.problem));
    const stamp = { pourId: id, instant: last.placedAt, estimated: true, seq: 1 };
    const edge = floor === 'partly' && front === null ? edgeProblem(plan, lanes, entries.value) : null;
    if (edge !== null) return setProblem(edgeWords(edge, laneCount > 1, picture !== null));
    const done = floor === 'whole' ? laneCount : Math.min(front?.lanesDone ?? lanes ?? 0, laneCount);
    const marks = (plan.layout?.lanes.slice(0, done) ?? []).map(
      (lane): PourEvent => ({ ...stamp, id: newId(), kind: 'lane-finished', roomId: lane.roomId, lane: lane.inRoom }),
    );
    const lotEntries = lots
      .split(/[,;]/)
      .map((lot) => lot.trim())
      .filter((lot) => lot !== '')
      .map((lot): PourEvent => ({ ...stamp, id: newId(), instant: lines[0]?.placedAt ?? last.placedAt, kind: 'lot', lot }));
    const open = plan.layout !== null && lanes === 0 ? openAfterFirst(plan.layout) : [];
    const drawn = (front?.marks ?? open).map(
      (mark): PourEvent => ({
        ...stamp,
        ...mark,
        id: newId(),
        kind: 'marked',
        outline: [...mark.outline],
        by: '',
        why: front === null ? 'no full lane in the handwritten log' : 'edge drawn from the handwritten log',
      }),
    );
    const events = [...lotEntries, ...entries.value, ...(floor === 'whole' ? [] : [...marks, ...drawn])];
    const usedBags = lines.reduce((sum, line) => sum + line.bags * ((line.toBatch ?? line.batch) - line.batch + 1), 0);
    if (bagsLeft !== null && Math.abs(onSite - usedBags - bagsLeft) > 0.5 && !isDifferenceSaid) {
      setDifferenceSaid(true);
      return setProblem(
        `${onSite} bags on site, ${usedBags} used: ${onSite - usedBags} should be left and you entered ${bagsLeft}. Correct a figure, or save again to keep them.`,
      );
    }
    // Stays open when storing fails.
    setSaving(true);
    return void onEnter({ id, events, bagsOnSite: onSite, bagsLeft, floor }).then((outcome) => {
      if (outcome.ok) return onClose();
      setSaving(false);
      return setProblem(outcome.message);
    });
  };
  return (
    <Dialog
      wide
      title="Enter pour from handwritten log"
      onClose={onClose}
      actions={
        <>
          <TextButton onPress={onClose}>Cancel</TextButton>
          <ActionButton saves busy={isSaving} onPress={enter}>
            Save pour
          </ActionButton>
        </>
      }
    >
      <Fields wide>
        <DateField label="Pour date" today={today} latest={today} value={day} onChange={setDay} />
        <NumberField label="Bags on site at the start" whole least={1} most={2000} value={onSite} onChange={setOnSite} />
        <NumberField label="Bags left" least={0} most={2000} decimals={1} value={bagsLeft} onChange={setBagsLeft} />
        <TextField label="Lot numbers" value={lots} onChange={setLots} hint="Separate them with commas." />
        <SelectField label="Floor placed" value={floor} none="Select" options={FLOORS} onChange={setFloor} />
        {floor === 'partly' && laneCount > 1 && (
          <NumberField
            label="Full lanes"
            whole
            least={0}
            most={laneCount}
            value={lanes}
            onChange={setLanes}
            hint="Or click or tap the plan where the last edge is."
          />
        )}
      </Fields>
      {floor === 'partly' && picture !== null && (
        <div>
          <DrawingRoom leastPx={180} mostPx={260} smallRatio={0.6}>
            {({ widthPx, heightPx }) => {
              const drawing = picture(front?.line ?? null, widthPx, heightPx);
              return drawing === null ? null : (
                <DrawingView
                  drawing={drawing}
                  label="Plan of the lanes. Click or tap where the last edge is."
                  onPoint={(p) => drawing.fit !== null && setFront(frontAt(toRoom(drawing.fit, p.x, p.y)))}
                />
              );
            }}
          </DrawingRoom>
        </div>
      )}
      <p className="small">One line per batch, or one line for several batches placed by that time. Times are estimates.</p>
      <PaperLines
        rows={rows}
        firsts={firsts}
        days={days}
        from={day ?? today}
        zone={zone}
        onChange={set}
        onAdd={() => setRows((current) => [...current, empty()])}
      />
      <FieldProblem text={problem} />
    </Dialog>
  );
}
