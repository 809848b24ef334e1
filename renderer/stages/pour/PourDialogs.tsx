import { useLocation } from 'wouter';
import type { PourReading } from '../../../shared-core/standing/read-pour.ts';
import { pouredPlanOf } from '../../../shared-core/standing/read-poured.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import type { Outcome } from '../../book/command.ts';
import { enterPaper, openPour } from '../../book/pour-record-commands.ts';
import { useMeasure } from '../../parts/use-measure.ts';
import { pourPicture } from './pour-picture.ts';
import { PaperDialog } from './PaperDialog.tsx';
import { useState } from 'react';
import { bagsWords } from '../../../shared-core/documents/log-words.ts';
import { Dialog } from '../../parts/Dialog.tsx';
import { ActionButton, TextButton } from '../../parts/Buttons.tsx';
import { NumberField } from '../../parts/Fields.tsx';

export type PourDialog = 'start' | 'paper' | null;

interface DialogsProps {
  readonly whole: WholeJob;
  readonly read: PourReading;
  readonly now: string;
  readonly shown: PourDialog;
  readonly onClose: () => void;
  readonly onSay: (outcome: Outcome<unknown>) => void;
}

/** The two ways to a pour log: starting the pour now, or entering a handwritten log. */
export function PourDialogs({ whole, read, now, shown, onClose, onSay }: DialogsProps) {
  const [, go] = useLocation();
  const { units, locale } = useMeasure();
  const of = {
    job: whole.job,
    roomIds: read.rooms.map((r) => r.room.id),
    lift: read.lift.number,
    materialId: read.material.id,
    bagsPlanned: read.bagsNeeded,
    plans: read.rooms.map((r, i) => ({ roomId: r.room.id, plan: read.plans[i] ?? read.first })),
    asPoured: pouredPlanOf(read, whole.materials),
  };
  if (shown === 'start')
    return (
      <StartDialog
        bagsNeeded={read.bagsNeeded}
        bagsToBring={read.bagsToBring}
        room={read.rooms.map((r) => r.room.name).join(' and ')}
        onClose={onClose}
        onStart={(bagsOnSite) => {
          onClose();
          void openPour({ ...of, bagsOnSite, fromPaper: false }).then((outcome) =>
            outcome.ok ? go(`/pour/${outcome.value}`) : onSay(outcome),
          );
        }}
      />
    );
  if (shown === 'paper')
    return (
      <PaperDialog
        plan={read.recordPlan}
        zone={whole.property.timeZone}
        now={now}
        picture={
          read.rooms.length > 1 || !read.layout.ok
            ? null
            : (line, widthPx, heightPx) =>
                pourPicture({
                  read,
                  roomId: of.roomIds[0] ?? '',
                  progress: null,
                  isPourMode: false,
                  units,
                  locale,
                  widthPx,
                  heightPx,
                  dams: line === null ? [] : [{ roomId: of.roomIds[0] ?? '', ...line, lengthM: 0 }],
                })
        }
        onClose={onClose}
        onEnter={({ bagsOnSite, ...paper }) => enterPaper({ ...of, bagsOnSite }, paper)}
      />
    );
  return null;
}

interface StartProps {
  readonly room: string;
  readonly bagsNeeded: number;
  /** Includes the estimate's reserve. */
  readonly bagsToBring: number;
  readonly onStart: (bagsOnSite: number) => void;
  readonly onClose: () => void;
}

/** Asks for the bags on site before the pour, because the bag forecast starts from them. */
function StartDialog({ room, bagsNeeded, bagsToBring, onStart, onClose }: StartProps) {
  const { locale } = useMeasure();
  const [bags, setBags] = useState<number | null>(null);
  const start = (): void => {
    if (bags !== null) onStart(bags);
  };
  return (
    <Dialog
      title={`Start pour: ${room}`}
      onClose={onClose}
      actions={
        <>
          <TextButton onPress={onClose}>Cancel</TextButton>
          <ActionButton saves held={bags === null ? 'Enter the bags on site.' : null} onPress={start}>
            Start pour
          </ActionButton>
        </>
      }
    >
      <NumberField
        label="Bags on site"
        value={bags}
        onChange={setBags}
        least={1}
        most={2000}
        whole
        autoFocus
        hint={`The plan needs ${bagsWords(bagsNeeded, locale)}. The estimate has ${bagsWords(bagsToBring, locale)}.`}
      />
      {/* Reserves its space, so that the button does not move while it is pressed. */}
      <p role="alert" className="pour-short">
        {bags !== null && bags < bagsNeeded
          ? `${bagsWords(bagsNeeded - bags, locale)} short of the plan. Get more bags first, or plan where to stop.`
          : ''}
      </p>
      <p className="small">
        Press Space each time a batch is placed. Wear gloves and eye protection, follow the data sheet, and plug mixers into GFCI outlets.
      </p>
    </Dialog>
  );
}
