import { type ReactNode, useEffect, useState } from 'react';
import type { PourEvent } from '../../../shared-core/book/pour-record.ts';
import { formatInstantTime } from '../../../shared-core/measure/moment.ts';
import { bagsAddedEntry, finishedEntry, incidentEntry, type Stamp } from '../../../shared-core/pour/pour-commands.ts';
import type { PourLayout } from '../../../shared-core/pour/layout.ts';
import type { PourRecordPlan, PourState } from '../../../shared-core/pour/pour-state.ts';
import { nowInstant } from '../../book/moment.ts';
import { keepPhoto } from '../../book/photo-commands.ts';
import { Dialog } from '../../parts/Dialog.tsx';
import { KeyHint } from '../../parts/KeyHint.tsx';
import { NumberField } from '../../parts/NumberField.tsx';
import { PercentField } from '../../parts/PercentField.tsx';
import { PhotoDrop } from '../../parts/photo/PhotoDrop.tsx';
import { PourButton } from '../../parts/PourButton.tsx';
import type { ScaledPhoto } from '../../parts/scale-photo.ts';
import { QuantityField } from '../../parts/QuantityField.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { entryWords } from '../../../shared-core/pour/log-words.ts';
import { INCIDENTS } from './pour-words.ts';
import type { Makes } from './use-pour-log.ts';
import './pour-else.css';

type Page = 'list' | 'other' | 'reading' | 'lot' | 'photo' | 'note' | 'bags' | 'finish' | 'log';

const PAGES: readonly { readonly page: Exclude<Page, 'list' | 'other'>; readonly key: string; readonly word: string }[] = [
  { page: 'reading', key: 'r', word: 'Readings and flow test' },
  { page: 'lot', key: 'l', word: 'Lot number' },
  { page: 'photo', key: 'p', word: 'A photo of the floor' },
  { page: 'note', key: 'n', word: 'A note' },
  { page: 'bags', key: 'b', word: 'Bags added' },
  { page: 'log', key: 'g', word: 'The log so far' },
  { page: 'finish', key: 'f', word: 'Finish the pour' },
];

const TITLES: Readonly<Record<Page, string>> = {
  list: 'Something else',
  other: 'What went wrong?',
  reading: 'Readings',
  lot: 'Lot number',
  photo: 'A photo of the floor',
  note: 'A note',
  bags: 'Bags added',
  finish: 'Finish the pour',
  log: 'The log so far',
};

const NO_READING = {
  airTempC: null,
  surfaceTempC: null,
  waterTempC: null,
  powderTempC: null,
  relativeHumidity: null,
  spreadM: null,
};
type Readings = Omit<Extract<PourEvent, { kind: 'reading' }>, 'id' | 'pourId' | 'seq' | 'at' | 'estimated' | 'kind'>;

interface ElseProps {
  readonly jobId: string;
  readonly state: PourState;
  readonly plan: PourRecordPlan;
  readonly events: readonly PourEvent[];
  readonly zone: string;
  readonly hasSound: boolean;
  readonly onSound: (on: boolean) => void;
  readonly onLog: (makes: Makes) => void;
  readonly onClose: () => void;
  /** Back to the job; the pour goes on. */
  readonly onLeave: () => void;
}

/** All that is not a batch: a second key says what. The clocks run on behind it. */
export function PourElse({ jobId, state, plan, events, zone, hasSound, onSound, onLog, onClose, onLeave }: ElseProps) {
  const { locale } = useMeasure();
  const [page, setPage] = useState<Page>('list');
  const [text, setText] = useState('');
  const [count, setCount] = useState<number | null>(null);
  const [readings, setReadings] = useState<Readings>(NO_READING);
  const set = (part: Partial<Readings>) => setReadings((was) => ({ ...was, ...part }));
  const [wants, setWants] = useState<string | null>(null);
  const [photos, setPhotos] = useState<readonly ScaledPhoto[]>([]);

  const pick = (key: string): boolean => {
    const incident = INCIDENTS.find((i) => i.key === key);
    if (incident?.what === 'other') setPage('other');
    else if (incident !== undefined) onLog((s, stamp) => incidentEntry(s, stamp, incident.what, ''));
    const to = PAGES.find((p) => p.key === key);
    if (to?.page === 'finish') setCount(Math.max(0, state.bagsLeft));
    if (to !== undefined) setPage(to.page);
    if (key === 't') onSound(!hasSound);
    return incident !== undefined || to !== undefined || key === 't';
  };
  useEffect(() => {
    if (page !== 'list') return undefined;
    const press = (event: KeyboardEvent) => {
      if (!event.ctrlKey && !event.metaKey && !event.altKey && !event.repeat && pick(event.key.toLowerCase())) event.preventDefault();
    };
    document.addEventListener('keydown', press);
    return () => document.removeEventListener('keydown', press);
  });
  const stamped = (s: PourState, stamp: Stamp) => ({ ...stamp, seq: s.nextSeq, estimated: false });
  // The photos are on the disk before the entry that names them.
  const savePhotos = async (words: string): Promise<void> => {
    if (photos.length === 0) return setWants('Take or choose a photo first.');
    if (page === 'lot' && words.length > 60) return setWants('A lot number is at most 60 characters: leave it to the photo.');
    const caption =
      page === 'lot' ? `Lot ${words === '' ? 'number on the bag' : words}` : words === '' ? 'The floor during the pour' : words;
    const roomNow = plan.layout?.batches[Math.min(state.nextToLand, plan.layout.batches.length) - 1]?.roomId ?? null;
    const photoIds: string[] = [];
    for (const photo of photos) {
      const kept = await keepPhoto({ ...photo, jobId, roomId: roomNow, caption, takenAt: nowInstant() });
      if (!kept.ok) return setWants(`Not kept. ${kept.message}`);
      photoIds.push(kept.value);
    }
    const lot = words === '' ? 'on the photo' : words;
    return onLog((s, stamp) => ({
      event:
        page === 'lot'
          ? { ...stamped(s, stamp), kind: 'lot', lot, photoIds }
          : { ...stamped(s, stamp), kind: 'note', text: caption, photoIds },
      ask: null,
    }));
  };
  const save = (): void => {
    const words = text.trim();
    if (page === 'reading') {
      if (Object.values(readings).every((v) => v === null)) return setWants('Type at least one reading.');
      return onLog((s, stamp) => ({ event: { ...stamped(s, stamp), kind: 'reading', ...readings }, ask: null }));
    }
    if (page === 'bags') {
      if (count === null || count <= 0) return setWants('Type how many bags came.');
      return onLog((s, stamp) => bagsAddedEntry(s, stamp, count));
    }
    if (page === 'finish') return onLog((s, stamp) => finishedEntry(s, plan, stamp, count));
    if (page === 'photo' || (page === 'lot' && photos.length > 0)) return void savePhotos(words);
    if (words === '') return setWants(page === 'lot' ? 'Type the lot number as printed.' : 'Type a few words.');
    if (page === 'lot') {
      if (words.length > 60) return setWants('A lot number is at most 60 characters: write its last part, or photograph the bag.');
      return onLog((s, stamp) => ({ event: { ...stamped(s, stamp), kind: 'lot', lot: words }, ask: null }));
    }
    if (page === 'other') return onLog((s, stamp) => incidentEntry(s, stamp, 'other', words));
    return onLog((s, stamp) => ({ event: { ...stamped(s, stamp), kind: 'note', text: words, photoIds: [] }, ask: null }));
  };

  const body: Record<Page, () => ReactNode> = {
    list: () => (
      <div className="pour-else-lists">
        <ul aria-label="Something went wrong">
          {INCIDENTS.map(({ what, key, word }) => (
            <li key={what}>
              <Line keys={key} word={word} onPress={() => pick(key)} />
            </li>
          ))}
        </ul>
        <ul aria-label="To write down">
          {PAGES.map((p) => (
            <li key={p.page}>
              <Line keys={p.key} word={p.word} onPress={() => pick(p.key)} />
            </li>
          ))}
          <li>
            <Line keys="t" word={hasSound ? 'Tones off' : 'Tones on'} onPress={() => pick('t')} />
          </li>
        </ul>
      </div>
    ),
    other: () => <TextField label="What went wrong" value={text} onChange={setText} autoFocus onEnter={save} />,
    reading: () => (
      <div className="pour-else-fields">
        <QuantityField kind="temperature" label="Air" value={readings.airTempC} onChange={(airTempC) => set({ airTempC })} autoFocus />
        <QuantityField
          kind="temperature"
          label="Surface"
          value={readings.surfaceTempC}
          onChange={(surfaceTempC) => set({ surfaceTempC })}
        />
        <QuantityField kind="temperature" label="Mixing water" value={readings.waterTempC} onChange={(waterTempC) => set({ waterTempC })} />
        <QuantityField kind="temperature" label="Powder" value={readings.powderTempC} onChange={(powderTempC) => set({ powderTempC })} />
        <PercentField
          label="Humidity of the air, %"
          value={readings.relativeHumidity === null ? null : readings.relativeHumidity * 100}
          onChange={(n) => set({ relativeHumidity: n === null ? null : n / 100 })}
        />
        <QuantityField
          kind="depth"
          label="Spread of the flow test"
          value={readings.spreadM}
          onChange={(spreadM) => set({ spreadM })}
          hint="With the ring and the time the data sheet names; usually one 30 mm across and 50 mm high (ASTM C1708, EN 12706)."
        />
      </div>
    ),
    lot: () => (
      <>
        <TextField label="Lot number as printed on the bag" value={text} onChange={setText} autoFocus onEnter={save} />
        <Photos label="Or a photo of the bag" photos={photos} onPhoto={(photo) => setPhotos((was) => [...was, photo])} />
      </>
    ),
    photo: () => (
      <>
        <Photos label="Photos of the floor" photos={photos} onPhoto={(photo) => setPhotos((was) => [...was, photo])} />
        <TextField label="What it shows" value={text} onChange={setText} onEnter={save} />
      </>
    ),
    note: () => <TextField label="Note" long value={text} onChange={setText} autoFocus />,
    bags: () => <NumberField label="Bags that came" least={1} most={2000} whole value={count} onChange={setCount} autoFocus />,
    finish: () => (
      <>
        <p className="pour-else-words">The clocks stop and the log is closed. Count the stack before you go.</p>
        <NumberField label="Bags left over" least={0} most={2000} decimals={1} value={count} onChange={setCount} autoFocus />
      </>
    ),
    log: () => (
      <ol className="pour-else-log">
        {[...state.entries].reverse().map(({ event, undone }) => (
          <li key={event.id}>
            <span>{formatInstantTime(event.at, zone, locale)}</span>
            <span>
              {undone ? <s>{entryWords(event, { layout: plan.layout, locale })}</s> : wordsOf(event, events, plan.layout, locale)}
            </span>
          </li>
        ))}
      </ol>
    ),
  };
  return (
    <Dialog open wide title={TITLES[page]} onClose={onClose}>
      {body[page]()}
      {wants !== null && (
        <p className="pour-else-words" role="alert">
          {wants}
        </p>
      )}
      <div className="pour-else-pair">
        <PourButton onPress={page === 'list' ? onClose : () => setPage('list')}>Back</PourButton>
        {page === 'list' && <PourButton onPress={onLeave}>Leave; the pour goes on</PourButton>}
        {page !== 'list' && page !== 'log' && <PourButton onPress={save}>{page === 'finish' ? 'Finish the pour' : 'Log it'}</PourButton>}
      </div>
    </Dialog>
  );
}

interface PhotosProps {
  readonly label: string;
  readonly photos: readonly ScaledPhoto[];
  readonly onPhoto: (photo: ScaledPhoto) => void;
}

function Photos({ label, photos, onPhoto }: PhotosProps) {
  return (
    <>
      <PhotoDrop label={label} multiple onPhoto={onPhoto} />
      <p role="status">
        {photos.length === 0 ? '' : `${photos.length === 1 ? 'One photo is' : `${photos.length} photos are`} ready: log it.`}
      </p>
    </>
  );
}

/** An entry that takes another back says which. */
function wordsOf(event: PourEvent, events: readonly PourEvent[], layout: PourLayout | null, locale: string): string {
  if (event.kind === 'incident' && event.note !== '') return `${entryWords(event, { layout: layout, locale })}: ${event.note}`;
  if (event.kind === 'note') return event.text;
  if (event.kind !== 'undone') return entryWords(event, { layout: layout, locale });
  const other = events.find((e) => e.id === event.eventId);
  return other === undefined
    ? entryWords(event, { layout: layout, locale })
    : `taken back: ${entryWords(other, { layout: layout, locale })}`;
}

function Line({ keys, word, onPress }: { readonly keys: string; readonly word: string; readonly onPress: () => void }) {
  return (
    <button type="button" className="pour-else-line" onClick={onPress}>
      <KeyHint keys={keys} />
      <span>{word}</span>
    </button>
  );
}
