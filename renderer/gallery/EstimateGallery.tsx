import { useState } from 'react';
import { ActionButton } from '../parts/ActionButton.tsx';
import { Answer } from '../parts/Answer.tsx';
import { ChoiceRow } from '../parts/ChoiceRow.tsx';
import { DatumDrawing } from '../parts/DatumDrawing.tsx';
import { DrawingRoom } from '../parts/DrawingRoom.tsx';
import { DrawingView } from '../parts/DrawingView.tsx';
import { Fields } from '../parts/Fields.tsx';
import { KeyPlan } from '../parts/KeyPlan.tsx';
import { NumberField } from '../parts/NumberField.tsx';
import { QuantityField } from '../parts/QuantityField.tsx';
import { RangeMark } from '../parts/RangeMark.tsx';
import { Reason } from '../parts/Reason.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { StageWords } from '../parts/StageWords.tsx';
import { BlockPart, SheetHeading } from '../parts/TitleBlock.tsx';
import { useSmall } from '../parts/use-small.ts';
import { madeUpKeyPlan, madeUpPlan, madeUpSection } from './made-up-drawings.ts';
import { BAGS_WHY } from './bags-why.ts';

const KEY_PLAN = madeUpKeyPlan();

export function EstimateGallery() {
  const small = useSmall();
  const [mode, setMode] = useState<'level' | 'follow' | 'ramp' | null>('level');
  const [least, setLeast] = useState<number | null>(0.003175);
  const [off, setOff] = useState<number | null>(0.009525);
  const [bag, setBag] = useState<number | null>(22.68);
  const [picked, setPicked] = useState<string | null>(null);
  return (
    <Sheet
      page="Jobs"
      who={{
        name: 'Marit and Jon Solberg',
        where: '9 Quarry Steps, Tarn Bridge',
        right: 'Job 26-014',
        short: 'Marit and Jon Solberg: hall',
      }}
      keyPlan={
        <KeyPlan
          drawing={KEY_PLAN}
          rooms={[
            { id: 'a', name: 'Hall', href: '/estimate', state: 'under-way', words: 'estimate', current: true },
            { id: 'b', name: 'Scullery', href: '/estimate', state: 'done', words: 'estimate done', current: false },
            { id: 'c', name: 'Porch', href: '/estimate', state: 'waiting', words: 'not read yet', current: false },
          ]}
        />
      }
      stages={
        <StageWords
          current="Estimate"
          stages={[
            { name: 'Assess', href: '/', state: 'done' },
            { name: 'Prep', href: '/', state: 'under-way' },
            { name: 'Estimate', href: '/estimate', state: 'under-way' },
            { name: 'Quote', href: '/', state: 'held' },
            { name: 'Pour', href: '/', state: 'waiting' },
            { name: 'Cure', href: '/', state: 'waiting' },
            { name: 'Handover', href: '/', state: 'waiting' },
          ]}
        />
      }
      block={
        <>
          <BlockPart>
            <ChoiceRow
              label="How the new floor lies"
              value={mode}
              onChange={setMode}
              options={[
                { value: 'level', word: 'Level' },
                { value: 'follow', word: small ? 'Follow' : 'Follow the floor' },
                { value: 'ramp', word: 'Ramp' },
              ]}
            />
            <div style={{ marginTop: 12 }}>
              <Fields>
                <QuantityField kind="depth" label="Least thickness" value={least} onChange={setLeast} />
                <QuantityField kind="depth" label="Max grinding depth" value={off} onChange={setOff} />
                <QuantityField kind="mass" label="Bag" unit="0.45 cu ft" value={bag} onChange={setBag} />
              </Fields>
            </div>
          </BlockPart>
          <BlockPart>
            <NumberField label="Helpers" whole value={1} onChange={() => undefined} />
          </BlockPart>
        </>
      }
      datumSticks
      datum={<DatumDrawing label="Section from the front door to the dining room" draw={madeUpSection} linePx={small ? 34 : 40} />}
      footOpen
      foot={
        <>
          <Answer
            figure={<Reason why={BAGS_WHY}>25</Reason>}
            note="enough eight times in ten"
            under={<RangeMark leastText="21" mostText="26" value={0.8} atText="25" />}
          >
            bags
          </Answer>
          <Answer wideOnly under={<RangeMark leastText="$3,240" mostText="$3,480" value={0.55} atText="$3,370" />}>
            <Reason why={BAGS_WHY}>$3,370</Reason> before tax
          </Answer>
          <Answer wideOnly under="one lift, 40 minutes, one helper">
            Pour <Reason why={BAGS_WHY}>Wed, May 27</Reason>, walk on <Reason why={BAGS_WHY}>by 6 pm</Reason>
          </Answer>
        </>
      }
      action={<ActionButton>Put it in the quote</ActionButton>}
    >
      <SheetHeading under="30 readings with the laser on May 6. High to low as it lies, 1¾″.">Hall: pour depth</SheetHeading>
      <DrawingRoom>
        {(room) => (
          <DrawingView
            drawing={madeUpPlan(room)}
            label="Plan of the hall with its readings"
            onPick={setPicked}
            picked={picked}
            sizing={room.small ? 'fit' : 'natural'}
          />
        )}
      </DrawingRoom>
    </Sheet>
  );
}
