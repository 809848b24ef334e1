import { type ReactNode, useEffect, useState } from 'react';
import type { PourEvent } from '../../../shared-core/book/pour-record.ts';
import { formatEntryTime } from '../../../shared-core/measure/moment.ts';
import {
  bagsAddedEntry,
  countedEntry,
  finishedEntry,
  incidentEntry,
  isFloorOpen,
  type Stamp,
} from '../../../shared-core/pour/pour-commands.ts';
import { bagsWords, entryInFull, type LogWordsPlace } from '../../../shared-core/documents/log-words.ts';
import type { PourRecordPlan, PourState } from '../../../shared-core/pour/pour-state.ts';
import type { StopPlan } from '../../../shared-core/pour/stop-plan.ts';
import { nowInstant } from '../../book/command.ts';
import { storePhoto } from '../../book/photo-commands.ts';
import { Dialog } from '../../parts/Dialog.tsx';
import { KeyHint, PourButton } from '../../parts/Buttons.tsx';
import { NumberField, PercentField, QuantityField, TextField } from '../../parts/Fields.tsx';
import { PhotoDrop } from '../../parts/photo/PhotoDrop.tsx';
import type { ScaledPhoto } from '../../parts/scale-photo.ts';
import { isLetterOff } from '../../parts/use-keys.ts';
import { useMeasure } from '../../parts/use-measure.ts';
import { BadBatchPage, CorrectPage, StopPage } from './MorePages.tsx';
import { TROUBLES, type TroublePage } from './pour-mode-words.ts';
import { useEnter } from './use-enter.ts';
import type { Makes } from './use-pour-log.ts';
import './pour-more.css';

type LogPage = 'reading' | 'lot' | 'photo' | 'note' | 'bags' | 'count' | 'correct' | 'log' | 'finish';
type Page = 'list' | LogPage | TroublePage;

const PAGES: readonly { readonly page: LogPage; readonly key: string; readonly word: string }[] = [
  { page: 'reading', key: 'r', word: 'Readings and flow test' },
  { page: 'lot', key: 'l', word: 'Lot number' },
  { page: 'photo', key: 'p', word: 'Photo' },
  { page: 'note', key: 'n', word: 'Note' },
  { page: 'bags', key: 'b', word: 'Bags added' },
  { page: 'count', key: 'c', word: 'Count the bags' },
  { page: 'correct', key: 'k', word: 'Correct a batch' },
  { page: 'log', key: 'g', word: 'Pour log' },
  { page: 'finish', key: 'f', word: 'Finish pour' },
];

function titleOf(page: Page): string {
  if (page === 'list') return 'More';
  if (page === 'stop') return 'Stop point';
  return [...PAGES, ...TROUBLES].find((one) => one.page === page)?.word ?? '';
}

const TEMPERATURES = [
  { key: 'airTempC', label: 'Air' },
  { key: 'surfaceTempC', label: 'Surface' },
  { key: 'waterTempC', label: 'Mix water' },
  { key: 'powderTempC', label: 'Powder' },
] as const;
const NO_READING = {
  airTempC: null,
  surfaceTempC: null,
  waterTempC: null,
  powderTempC: null,
  relativeHumidity: null,
  spreadM: null,
};
type Readings = Omit<Extract<PourEvent, { kind: 'reading' }>, 'id' | 'pourId' | 'seq' | 'instant' | 'estimated' | 'kind'>;

interface MoreProps {
  readonly jobId: string;
  readonly state: PourState;
  /** The state with entries that the screen does not show yet. */
  readonly stateNow: () => PourState;
  readonly plan: PourRecordPlan;
  readonly events: readonly PourEvent[];
  readonly zone: string;
  readonly roomName: (roomId: string | null) => string;
  /** What to do about missing bags, in words. */
  readonly bagChoices: readonly string[];
  /** Minutes there and back for more bags. */
  readonly fetchMin: number;
  readonly onFetchMin: (min: number) => void;
  readonly hasSound: boolean;
  readonly onSound: (on: boolean) => void;
  readonly hasVoice: boolean;
  readonly onVoice: (on: boolean) => void;
  readonly onLog: (...makes: readonly Makes[]) => void;
  readonly onStop: (plan: StopPlan | null) => void;
  readonly onClose: () => void;
  /** Goes back to the job; the pour continues. */
  readonly onLeave: () => void;
}

/** Everything other than batches, by a second key. The clocks continue behind it. */
export function PourMore(props: MoreProps) {
  const { jobId, state, stateNow, plan, events, zone, hasSound, hasVoice, onLog, onClose } = props;
  const { units, locale } = useMeasure();
  const [page, setPage] = useState<Page>('list');
  const [text, setText] = useState('');
  const [count, setCount] = useState<number | null>(null);
  const [readings, setReadings] = useState<Readings>(NO_READING);
  const set = (part: Partial<Readings>) => setReadings((current) => ({ ...current, ...part }));
  const [wants, setWants] = useState<string | null>(null);
  const [photos, setPhotos] = useState<readonly ScaledPhoto[]>([]);
  const [isSaving, setSaving] = useState(false);
  // Photos stored by a try that failed at a later one.
  const [storedIds] = useState(() => new Map<ScaledPhoto, string>());
  const place: LogWordsPlace = { units, locale, zone, layout: plan.layout, roomName: props.roomName };

  const pick = (key: string): boolean => {
    const trouble = TROUBLES.find((t) => t.key === key);
    if (trouble !== undefined && trouble.page !== null) setPage(trouble.page);
    else if (trouble !== undefined) onLog((s, stamp) => incidentEntry(s, stamp, { what: trouble.incident }));
    const to = PAGES.find((p) => p.key === key);
    if (to?.page === 'finish' || to?.page === 'count') setCount(Math.max(0, stateNow().bagsLeft));
    if (to !== undefined) setPage(to.page);
    if (key === 't') props.onSound(!hasSound);
    if (key === 'v') props.onVoice(!hasVoice);
    return trouble !== undefined || to !== undefined || key === 't' || key === 'v';
  };
  useEffect(() => {
    if (page !== 'list') return undefined;
    const press = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey || event.repeat || isLetterOff(event)) return;
      if (pick(event.key.toLowerCase())) event.preventDefault();
    };
    document.addEventListener('keydown', press);
    return () => document.removeEventListener('keydown', press);
  });
  const stamped = (s: PourState, stamp: Stamp) => ({ ...stamp, seq: s.nextSeq, estimated: false });
  // The photos are stored before the entry that names them.
  const savePhotos = async (words: string): Promise<void> => {
    if (photos.length === 0) return setWants('Add a photo first.');
    if (page === 'lot' && words.length > 60)
      return setWants('A lot number has at most 60 characters. Clear the field. The photo shows the lot.');
    const caption = page === 'lot' ? `Lot ${words === '' ? 'number on the bag' : words}` : words === '' ? 'Floor during the pour' : words;
    const roomNow = plan.layout?.batches[Math.min(state.nextToLand, plan.layout.batches.length) - 1]?.roomId ?? null;
    setSaving(true);
    for (const photo of photos.filter((one) => !storedIds.has(one))) {
      const photoId = await storePhoto({ ...photo, jobId, roomId: roomNow, caption, takenAt: nowInstant() });
      if (!photoId.ok) {
        setSaving(false);
        return setWants(`The photo was not saved. ${photoId.message}`);
      }
      storedIds.set(photo, photoId.value);
    }
    const photoIds = photos.flatMap((photo) => storedIds.get(photo) ?? []);
    const lot = words === '' ? 'on the photo' : words;
    return onLog((s, stamp) => ({
      event:
        page === 'lot'
          ? { ...stamped(s, stamp), kind: 'lot', lot, photoIds }
          : { ...stamped(s, stamp), kind: 'note', text: caption, photoIds },
      ask: null,
    }));
  };
  const [isFloorAsked, askFloor] = useState(false);
  const isOpen = isFloorAsked || isFloorOpen(state, plan);
  const finish = (floor: 'whole' | 'partly' | null): void => {
    // An entry that the screen does not show yet can leave the floor open: without an answer the rest would count as not placed.
    if (floor === null && isFloorOpen(stateNow(), plan)) return askFloor(true);
    return onLog((s, stamp) => finishedEntry(s, stamp, { bagsLeft: count, floor }));
  };
  const save = (): void => {
    const words = text.trim();
    if (page === 'reading') {
      if (Object.values(readings).every((v) => v === null)) return setWants('Enter at least one reading.');
      return onLog((s, stamp) => ({ event: { ...stamped(s, stamp), kind: 'reading', ...readings }, ask: null }));
    }
    if (page === 'bags') {
      if (count === null || count <= 0) return setWants('Enter the bags added.');
      return onLog((s, stamp) => bagsAddedEntry(s, stamp, count));
    }
    if (page === 'count') {
      if (count === null) return setWants('Enter the bags left.');
      return onLog((s, stamp) => countedEntry(s, plan, stamp, count));
    }
    if (page === 'photo' || (page === 'lot' && photos.length > 0)) return isSaving ? undefined : void savePhotos(words);
    if (words === '') return setWants(page === 'lot' ? 'Enter the lot number as printed.' : 'Enter a few words.');
    if (page === 'lot') {
      if (words.length > 60) return setWants('A lot number has at most 60 characters. Enter its last part, or add a photo of the bag.');
      return onLog((s, stamp) => ({ event: { ...stamped(s, stamp), kind: 'lot', lot: words }, ask: null }));
    }
    if (page === 'other') return onLog((s, stamp) => incidentEntry(s, stamp, { what: 'other', note: words }));
    return onLog((s, stamp) => ({ event: { ...stamped(s, stamp), kind: 'note', text: words, photoIds: [] }, ask: null }));
  };
  const enter = useEnter(() => (page === 'finish' ? finish(null) : save()));
  const back = <PourButton onPress={page === 'list' ? onClose : () => setPage('list')}>{page === 'list' ? 'Close' : 'Back'}</PourButton>;
  const page3 = { state, plan, onLog, back };

  const body: Record<Page, () => ReactNode> = {
    list: () => (
      <div className="pour-more-lists">
        <ul aria-label="Trouble">
          {TROUBLES.map(({ incident: what, key, word }) => (
            <li key={what}>
              <Line keys={key} word={word} onPress={() => pick(key)} />
            </li>
          ))}
        </ul>
        <ul aria-label="Log">
          {PAGES.map((p) => (
            <li key={p.page}>
              <Line keys={p.key} word={p.word} onPress={() => pick(p.key)} />
            </li>
          ))}
          <li>
            <Line keys="t" word={hasSound ? 'Turn tones off' : 'Turn tones on'} onPress={() => pick('t')} />
          </li>
          <li>
            <Line keys="v" word={hasVoice ? 'Turn voice off' : 'Turn voice on'} onPress={() => pick('v')} />
          </li>
        </ul>
      </div>
    ),
    'bad-batch': () => <BadBatchPage {...page3} />,
    stop: () => <StopPage {...page3} of="lost" choices={[]} onShow={props.onStop} />,
    short: () => (
      <>
        <NumberField
          label="Minutes there and back for bags"
          whole
          least={1}
          most={600}
          value={props.fetchMin}
          onChange={(min) => min !== null && props.onFetchMin(min)}
        />
        <StopPage {...page3} of="bags" choices={props.bagChoices} onShow={props.onStop} />
      </>
    ),
    correct: () => <CorrectPage {...page3} zone={zone} />,
    other: () => <TextField label="Description" value={text} onChange={setText} autoFocus onEnter={enter} />,
    reading: () => (
      <div className="pour-more-fields">
        {TEMPERATURES.map(({ key, label }, i) => (
          <QuantityField
            key={key}
            kind="temperature"
            label={label}
            value={readings[key]}
            onChange={(tempC) => set({ [key]: tempC })}
            autoFocus={i === 0}
            onEnter={enter}
          />
        ))}
        <PercentField
          label="Relative humidity (RH)"
          value={readings.relativeHumidity}
          onChange={(relativeHumidity) => set({ relativeHumidity })}
          onEnter={enter}
        />
        <QuantityField
          kind="depth"
          label="Flow test diameter"
          value={readings.spreadM}
          onChange={(spreadM) => set({ spreadM })}
          onEnter={enter}
          hint="Use the ring and time on the data sheet. The usual ring is 30 mm wide and 50 mm high (ASTM C1708)."
        />
      </div>
    ),
    lot: () => (
      <>
        <TextField label="Lot number on the bag" value={text} onChange={setText} autoFocus onEnter={enter} />
        <Photos label="Photo of the bag" photos={photos} onPhoto={(photo) => setPhotos((current) => [...current, photo])} />
      </>
    ),
    photo: () => (
      <>
        <Photos label="Photos of the floor" photos={photos} onPhoto={(photo) => setPhotos((current) => [...current, photo])} />
        <TextField label="Caption" value={text} onChange={setText} onEnter={enter} />
      </>
    ),
    note: () => <TextField label="Note" long value={text} onChange={setText} autoFocus />,
    bags: () => <NumberField label="Bags added" least={1} most={2000} whole value={count} onChange={setCount} autoFocus onEnter={enter} />,
    count: () => (
      <NumberField
        label="Bags left on site"
        least={0}
        most={2000}
        decimals={1}
        value={count}
        onChange={setCount}
        autoFocus
        onEnter={enter}
        hint={`The log has ${bagsWords(Math.max(0, state.bagsLeft), locale)} left.`}
      />
    ),
    finish: () => (
      <>
        <p className="pour-more-words">
          {isOpen ? 'The log does not show all of the floor placed. Choose what was placed.' : 'All clocks stop and the log is closed.'}
        </p>
        <NumberField
          label="Bags left"
          least={0}
          most={2000}
          decimals={1}
          value={count}
          onChange={setCount}
          autoFocus
          {...(isOpen ? {} : { onEnter: enter })}
        />
      </>
    ),
    log: () => (
      <ol className="pour-more-log">
        {[...state.entries].reverse().map(({ event, undone }) => (
          <li key={event.id}>
            <span>{formatEntryTime(event.instant, state.entries[0]?.event.instant ?? event.instant, zone, locale)}</span>
            <span>{undone ? <s>{entryInFull(event, events, place)}</s> : entryInFull(event, events, place)}</span>
          </li>
        ))}
      </ol>
    ),
  };
  const hasOwnFoot = page === 'bad-batch' || page === 'stop' || page === 'short' || page === 'correct';
  return (
    <Dialog wide title={titleOf(page)} onClose={onClose}>
      {body[page]()}
      {wants !== null && (
        <p className="pour-more-words" role="alert">
          {wants}
        </p>
      )}
      {!hasOwnFoot && (
        <div className="pour-more-pair">
          {back}
          {page === 'list' && <PourButton onPress={props.onLeave}>Leave pour running</PourButton>}
          {page === 'finish' && (
            <>
              <PourButton saves onPress={() => finish('partly')} detail="rest another day">
                Partly poured
              </PourButton>
              {isOpen ? (
                <PourButton saves onPress={() => finish('whole')} detail="every lane is full">
                  All of it placed
                </PourButton>
              ) : (
                <PourButton saves onPress={() => finish(null)}>
                  Finish pour
                </PourButton>
              )}
            </>
          )}
          {page !== 'list' && page !== 'log' && page !== 'finish' && (
            <PourButton saves onPress={save} disabled={isSaving}>
              Save
            </PourButton>
          )}
        </div>
      )}
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
        {photos.length === 0 ? '' : photos.length === 1 ? '1 photo ready to save' : `${photos.length} photos ready to save`}
      </p>
    </>
  );
}

function Line({ keys, word, onPress }: { readonly keys: string; readonly word: string; readonly onPress: () => void }) {
  return (
    <button type="button" className="pour-more-line" onClick={onPress}>
      <KeyHint keys={keys} />
      <span>{word}</span>
    </button>
  );
}
