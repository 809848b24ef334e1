import { useLocation } from 'wouter';
import type { PourReading } from '../../../shared-core/standing/read-pour.ts';
import { pouredPlanOf } from '../../../shared-core/standing/read-poured.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import type { Outcome } from '../../book/outcome.ts';
import { enterPaper, openPour } from '../../book/pour-commands.ts';
import { OpenDialog } from './OpenDialog.tsx';
import { PaperDialog } from './PaperDialog.tsx';

export type PourDialog = 'open' | 'paper' | null;

interface DialogsProps {
  readonly whole: WholeJob;
  readonly read: PourReading;
  readonly now: string;
  readonly shown: PourDialog;
  readonly onClose: () => void;
  readonly onSay: (outcome: Outcome<unknown>) => void;
}

/** The two ways into a pour's log: opening it now, or entering it from paper afterwards. */
export function PourDialogs({ whole, read, now, shown, onClose, onSay }: DialogsProps) {
  const [, go] = useLocation();
  const of = {
    job: whole.job,
    roomIds: read.rooms.map((r) => r.room.id),
    lift: read.lift.number,
    materialId: read.material.id,
    bagsPlanned: read.bagsNeeded,
    plans: read.rooms.map((r, i) => ({ roomId: r.room.id, plan: read.plans[i] ?? read.first })),
    asPoured: pouredPlanOf(read),
  };
  if (shown === 'open')
    return (
      <OpenDialog
        bagsNeeded={read.bagsNeeded}
        room={read.rooms.map((r) => r.room.name).join(' and ')}
        onClose={onClose}
        onOpen={(bagsOnSite) => {
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
        onClose={onClose}
        onEnter={({ id, events, bagsOnSite, bagsLeft }) => enterPaper({ ...of, bagsOnSite }, { id, events, bagsLeft })}
      />
    );
  return null;
}
