import { useState } from 'react';
import { ActionButton } from '../parts/ActionButton.tsx';
import { Dialog } from '../parts/Dialog.tsx';
import { ConfirmWhy } from '../parts/ConfirmWhy.tsx';
import { DropZone } from '../parts/DropZone.tsx';
import { EmptySheet } from '../parts/EmptySheet.tsx';
import { KeyHint } from '../parts/KeyHint.tsx';
import { LetterKey } from '../parts/LetterKey.tsx';
import { LinkWord } from '../parts/LinkWord.tsx';
import { Notice } from '../parts/Notice.tsx';
import { PageList } from '../parts/PageList.tsx';
import { Pointer } from '../parts/Pointer.tsx';
import { RangeMark } from '../parts/RangeMark.tsx';
import { Reason } from '../parts/Reason.tsx';
import { STATE_WORDS, StateShape } from '../parts/StateShape.tsx';
import { Table } from '../parts/Table.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { UndoBar } from '../parts/UndoBar.tsx';
import { UnitText } from '../parts/UnitText.tsx';
import { FieldsGallery } from './FieldsGallery.tsx';
import { Shown } from './Shown.tsx';
import { BAGS_WHY } from './bags-why.ts';
import './gallery.css';

const ROWS = [
  { id: 'a', what: 'Refasten loose boards', because: 'six rock under the foot', much: '38 screws', open: false },
  { id: 'b', what: 'Dam three openings', because: 'two floors lie lower', much: '8 ft 10', open: true },
] as const;

export function PartsGallery() {
  const [asked, setAsked] = useState(false);
  const [held, setHeld] = useState(false);
  const [message, setMessage] = useState('');
  return (
    <main className="gallery">
      <h1 className="speech">The parts</h1>
      <p>
        Sheets: <LinkWord href="/today">Today</LinkWord>, <LinkWord href="/estimate">Estimate</LinkWord>,{' '}
        <LinkWord href="/empty">empty</LinkWord>, <LinkWord href="/pour">pour</LinkWord>. <PageList page="Today" />
      </p>
      <Shown name="States, pointer, range, keys">
        {(['waiting', 'under-way', 'done', 'held'] as const).map((state) => (
          <span key={state} className="gallery-pair">
            <StateShape state={state} /> {STATE_WORDS[state]}
          </span>
        ))}
        <Pointer />
        <RangeMark leastText="21" mostText="26" value={0.8} atText="25" />
        <RangeMark leastText="3:30" mostText="7 pm" value={null} dashed />
        <KeyHint keys="mod+z" /> <KeyHint keys="/" /> <LetterKey letter="A" />{' '}
        <LetterKey letter="B" label="Hand over" onPress={() => setMessage('B')} />
        <UnitText>1 3/4 in over 10 ft, 13/16 in at 68 °F</UnitText>
      </Shown>
      <Shown name="Buttons and words">
        <ActionButton onPress={() => setMessage('done')}>Put it in the quote</ActionButton>
        <ActionButton held="The moisture test is missing.">Pour now</ActionButton>
        <ActionButton busy>Making the quote</ActionButton>
        <TextButton>Read another room</TextButton>
        <TextButton kind="outlined">Leave</TextButton>
        <TextButton kind="plain" keys="mod+z">
          Undo
        </TextButton>
        <TextButton disabled>Nothing to undo</TextButton>
        <span>
          A figure with its reason: <Reason why={BAGS_WHY}>25</Reason> bags.
        </span>
        <span role="status">{message}</span>
      </Shown>
      <FieldsGallery />
      <Shown name="Table">
        <Table
          label="What is to be done"
          captioned
          rows={ROWS}
          rowKey={(r) => r.id}
          isBold={(r) => r.open}
          onPick={(r) => setMessage(r.what)}
          columns={[
            {
              key: 'state',
              caption: '',
              cell: (r) => <StateShape state={r.open ? 'under-way' : 'done'} sizePx={14} label={r.open ? 'open' : 'done'} />,
            },
            { key: 'what', caption: 'What is to be done', cell: (r) => r.what, heads: true },
            { key: 'because', caption: 'because', cell: (r) => r.because, italic: true, wideOnly: true },
            { key: 'much', caption: 'how much', cell: (r) => r.much, align: 'right' },
          ]}
          foot={{ what: 'In all', much: '2' }}
        />
        <Table label="Callbacks" rows={[]} rowKey={() => ''} columns={[]} empty="No callback yet." />
      </Shown>
      <Shown name="Bars">
        <div className="gallery-wide">
          <Notice kind="failure" action={{ word: 'Choose another folder', run: () => undefined }}>
            The copy could not be written: the disk is full. Nothing in the book is lost.
          </Notice>
          <UndoBar done="Reading 12 is removed." onUndo={() => undefined} onGone={() => undefined} seconds={3600} />
        </div>
      </Shown>
      <Shown name="Dialogs">
        <TextButton onPress={() => setAsked(true)}>Ask something</TextButton>
        <TextButton onPress={() => setHeld(true)}>Override a hold</TextButton>
        <Dialog
          open={asked}
          onClose={() => setAsked(false)}
          title="Put the porch away?"
          actions={
            <>
              <TextButton onPress={() => setAsked(false)}>Go back</TextButton>
              <TextButton kind="outlined" onPress={() => setAsked(false)}>
                Put it away
              </TextButton>
            </>
          }
        >
          <p>Its readings stay in the book, and undo brings it back.</p>
        </Dialog>
        <ConfirmWhy
          open={held}
          hold="Moisture test missing for the hall"
          because="Cement over a damp slab can let go of the floor laid on it."
          source="ASTM F2170"
          goOnWord="Override hold"
          onGoOn={(why) => {
            setMessage(why);
            setHeld(false);
          }}
          onBack={() => setHeld(false)}
        />
      </Shown>
      <Shown name="Nothing yet">
        <EmptySheet
          heading="The floor’s readings go here."
          hint="Set the laser up where it sees the whole room, and type what the staff reads."
          first={<ActionButton>Take the first reading</ActionButton>}
          or={<TextButton>Bring in a list</TextButton>}
        />
      </Shown>
      <Shown name="Files">
        <DropZone
          label="Photos of the floor"
          chooseWord="Choose photos"
          accept={['image/jpeg', 'image/png', 'image/webp']}
          multiple
          onFiles={(files) => setMessage(files.map((f) => f.name).join(', '))}
          refuse={(name) => `${name} is not a photo: use JPEG, PNG or WebP.`}
          hint="They stay on this computer."
        />
      </Shown>
    </main>
  );
}
