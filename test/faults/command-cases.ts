/** Arguments for each command of `renderer/book`, for runs in which the database fails. */
import { contactRow } from '../contact-row.ts';
import { newId, type Outcome } from '../../renderer/book/command.ts';
import type { Lead } from '../../shared-core/book/lead.ts';
import type { Material } from '../../shared-core/book/material.ts';
import { emptyAddress } from '../../shared-core/book/new-records.ts';
import { JOB, NOW, ORDER, ROOM, stored, storedJob } from './failing-book.ts';

export type Run = () => Promise<Outcome<unknown>>;
export type Commands = Readonly<Record<string, (...inputs: unknown[]) => Promise<Outcome<unknown>>>>;
type Made = (command: (...inputs: unknown[]) => Promise<Outcome<unknown>>) => Run;
const withInputs =
  (inputs: () => readonly unknown[]): Made =>
  (command) =>
  () =>
    command(...inputs());
const touched = <T extends object>(value: T): T => (Array.isArray(value) ? ([...(value as unknown[])] as unknown as T) : { ...value });
const material = (): Material => stored.materials[0] as unknown as Material;
const lead = (): Lead => stored.leads[0] as unknown as Lead;
const tree = (title: string) => ({ title, madeAt: NOW });
const line = { key: 'line', what: 'Vacuum', signedText: 'Vacuum the floor' };
const signature = { itemKey: 'line', doneAt: NOW };
const event = () => ({ id: newId(), pourId: String(stored.pours[0]?.['id']), instant: NOW, estimated: false, kind: 'bags-added', bags: 1 });
const opening = () => ({
  ...{
    job: { id: JOB },
    roomIds: [ROOM],
    lift: 1,
    materialId: material().id,
    bagsOnSite: 20,
    bagsPlanned: 18,
    plans: [],
    asPoured: stored.pours[0]?.['asPoured'],
    fromPaper: false,
  },
});
const property = (): string => storedJob().property.id;
let revision = 90;
/** A revision that no stored record has. */
const unused = (): number => (revision += 1);
const visit = (): string => String(stored.visits[0]?.['id']);

/** Arguments of each command; `null` for an export that writes nothing. */
export const CASES: Readonly<Record<string, Readonly<Record<string, Made | null>>>> = {
  'assessment-commands': {
    setLayers: withInputs(() => [ROOM, 'layers', touched]),
    storeTest: withInputs(() => [
      ROOM,
      'test',
      storedJob().rooms[0]?.tests[0] ?? { id: 'test-1', kind: 'scratch', takenAt: NOW, by: '', point: null, note: '', result: 'firm' },
    ]),
    deleteTest: withInputs(() => [ROOM, 'test', 'no-test']),
    setCircumstances: withInputs(() => [ROOM, touched]),
    setFlooring: withInputs(() => [JOB, ROOM, 'flooring', 'carpet']),
    setFlooringLaid: withInputs(() => [JOB, ROOM, '2026-05-20']),
    setFlooringLimits: withInputs(() => [JOB, ROOM, { slabHumidity: 0.8 }]),
    setYearBuilt: withInputs(() => [property(), 1950]),
    overrideHold: withInputs(() => [
      JOB,
      ROOM,
      { key: 'hold', title: 'a hold', text: 'A hold.' },
      { why: 'Checked on site.', document: null, initials: 'RT' },
    ]),
    initialsOf: null,
  },
  'backup-commands': {
    hasCounts: null,
    replaceData: null,
    readDataset: null,
    readBase: null,
    noteBackup: withInputs(() => [{ instant: NOW, name: 'x', covered: [] }]),
    noteBackupFailure: withInputs(() => ['The disk is full.']),
    changedSinceBackup: null,
    watchRecords: null,
    useBackupState: null,
  },
  'backup-key': { readBackupKey: null, saveBackupKey: withInputs(() => [{ salt: 'a', key: 'b' }]), useIsEncrypted: null },
  'business-commands': { changeBusiness: withInputs(() => ['name', touched]), removeTaxRate: withInputs(() => ['sales']) },
  'calendar-commands': {
    noteCalendarSent: withInputs(() => [{ records: stored.calendarEntries }]),
    readCalendarSent: null,
    readCalendarState: null,
    changeCalendarState: withInputs(() => [touched]),
    useCalendarState: null,
  },
  'cure-commands': {
    addReadings: withInputs(() => [JOB, ROOM, [{ instant: NOW, tempC: 18, relativeHumidity: 0.5 }], 'by-hand', 'Air']),
    deleteLog: withInputs(() => [{ id: stored.cureLogs[0]?.['id'], name: 'Air' }]),
    promise: withInputs(() => [
      { jobId: JOB, roomId: ROOM, milestone: 'walk-on', flooring: null, promisedFor: NOW, to: '', documentId: null },
    ]),
    addClearanceTests: withInputs(() => [
      {
        jobId: JOB,
        roomId: ROOM,
        method: 'carbide',
        unit: 'cm-percent',
        by: 'Ros',
        takenAt: NOW,
        note: '',
        flooring: 'carpet',
      },
      [1.8, 1.9],
    ]),
    addVisit: withInputs(() => [{ jobId: JOB, roomIds: [ROOM], kind: 'own', title: 'Look', instant: NOW, minutes: 30 }]),
    changeVisit: withInputs(() => [visit(), 'visit', touched]),
  },
  drafts: { storeDraft: withInputs(() => ['room/x', '12 ft']), useDraft: null },
  'fix-problem': {
    fixWord: null,
    fixProblem: withInputs(() => [{ kind: 'number', table: 'jobs', id: JOB, message: '' }, NOW]),
  },
  'handover-commands': {
    handOver: withInputs(() => [JOB, [ROOM], NOW, 'Adaeze']),
  },
  'job-commands': {
    changeJob: withInputs(() => [JOB, 'job', touched]),
    changeJobRoom: withInputs(() => [JOB, ROOM, 'job', touched]),
    changeRoom: withInputs(() => [ROOM, 'room', touched]),
    chooseMaterial: withInputs(() => [JOB, ROOM, { usual: 'usualMaterialId', id: null }, touched]),
    mayReopen: null,
    reopened: null,
    putJob: withInputs(() => [{ id: JOB, number: '26-001' }, 'finished']),
  },
  'starting-rooms': { startingRooms: null },
  'job-rooms': {
    addToJob: withInputs(() => [storedJob().job, ['sample-hall'], 'Hall']),
    sameAs: withInputs(() => [JOB, ROOM, storedJob().rooms.find((room) => room.id !== ROOM)?.id]),
    removeFromJob: withInputs(() => [storedJob().job, 'sample-hall', 'Hall']),
    placeRoom: withInputs(() => [storedJob().property, storedJob().rooms[0], { xM: 1, yM: 1, turnDeg: 0 }, touched]),
  },
  'material-commands': {
    changeMaterial: withInputs(() => [material().id, 'data sheet', touched]),
    changePowder: withInputs(() => [material().id, 'data sheet', touched]),
    putMilestone: withInputs(() => [material().id, material().powder?.milestones[0]]),
    removeMilestone: withInputs(() => [material().id, { kind: 'cart', flooring: null, thicknessM: null }]),
    putPrimerUse: withInputs(() => [
      material().id,
      { substrate: 'porous', coats: 1, coverageM2PerL: 6, waterParts: 1, dryHoursLeast: 1, dryHoursMost: 24 },
    ]),
    addPrice: withInputs(() => [material().id, { from: '2026-05-01', minor: 3200, note: '' }]),
    withPrice: null,
    startingSheets: null,
    addSheet: withInputs(() => ['cement-underlayment', 'Fine', null, { timeZone: 'America/New_York', currency: 'USD' }]),
    copySheet: withInputs(() => [material()]),
    isChosenById: null,
    sheetUses: null,
    archiveSheet: withInputs(() => [material(), true]),
  },
  'move-pour-commands': { tryMove: null },
  'date-commands': { saveMove: withInputs(() => [{ jobId: JOB, dates: { handoverAt: NOW }, visits: storedJob().visits }, 'pour']) },
  'document-commands': {
    documentRow: null,
    storeDocument: withInputs(() => [
      {
        jobId: JOB,
        kind: 'prep-sheet',
        revision: unused(),
        tree: { ...tree('Prep sheet'), blocks: [] },
        sha256: null,
        programVersion: '0.1.0',
      },
    ]),
    // These call the desk; their database writes are tested as `storeDocument`.
    saveStored: null,
    saveDocument: null,
    reprintDocument: null,
    saveJobDocument: null,
    latestReading: null,
    paperPhotos: null,
    storedDocument: withInputs(() => [stored.documents[0]]),
    recordSent: withInputs(() => ['stored-document', { to: 'Adaeze', by: 'email' }]),
  },
  'customer-commands': {
    addCustomer: withInputs(() => ['Bo Marsh']),
    addCustomers: withInputs(() => [[contactRow({ name: 'Al' })]]),
    addProperty: withInputs(() => [storedJob().customer.id, emptyAddress('US'), 'America/New_York']),
    addRoom: withInputs(() => [property(), 'Porch']),
    startJob: withInputs(() => [property(), ['sample-family'], 'Porch']),
    changeLead: withInputs(() => [lead().id, 'lead', touched]),
    setLeadNext: withInputs(() => [lead().id, () => null]),
    closeLead: withInputs(() => [lead().id, 'lost', 'No answer', 'America/New_York']),
    reopenLead: withInputs(() => [lead().id]),
    saveLead: withInputs(() => {
      const saved = { ...lead(), id: newId(), propertyId: 'sample-ferry-street', roomIds: ['sample-storage'] };
      const told = { phone: '555 0190', email: '', yearBuilt: 1950, rooms: [] };
      return [{ customer: null, property: null, rooms: [], lead: saved, told }, true];
    }),
    startLeadJob: withInputs(() => [{ ...lead(), propertyId: 'sample-calder-row' }]),
  },
  'photo-commands': {
    storePhoto: withInputs(() => [
      {
        jobId: JOB,
        roomId: ROOM,
        caption: '',
        takenAt: NOW,
        mediaType: 'image/jpeg',
        widthPx: 1,
        heightPx: 1,
        bytes: new Uint8Array([1, 2, 3]),
      },
    ]),
    captionPhoto: withInputs(() => ['stored-photo', 'The door']),
    deletePhoto: withInputs(() => ['stored-photo']),
  },
  pictures: { heldPictures: null, readPicture: null, storePictures: withInputs(() => [[{ name: 'photos/x', data: new Uint8Array([1]) }]]) },
  'plan-commands': {
    surveyOf: null,
    blankSurvey: null,
    emptySurvey: null,
    withPlan: null,
    withMarks: null,
    withSurvey: null,
    withTiedSetups: null,
  },
  'pour-record-commands': {
    openPour: withInputs(() => [opening()]),
    logEntry: withInputs(() => [{ event: event() }]),
    enterPaper: withInputs(() => [
      { ...opening(), roomIds: ['another-room'] },
      { id: newId(), events: [event()], bagsLeft: 0, floor: 'whole' },
    ]),
    changePourPlan: withInputs(() => [
      { jobId: JOB, roomId: ROOM },
      'plan',
      storedJob().job.rooms.find((r) => r.pourPlan !== null)?.pourPlan,
      touched,
    ]),
  },
  'ledger-commands': {
    issueInvoice: withInputs(() => {
      const invoice = stored.ledger.find((row) => row['kind'] === 'invoice') ?? {};
      return [
        JOB,
        { ...invoice, stageName: null },
        { onDay: '2026-05-12', dueOn: '2026-06-11', title: 'Deposit', retainageMinor: 0, note: '', currency: 'USD' },
      ];
    }),
    recordEntries: withInputs(() => [
      [
        {
          kind: 'stock',
          jobId: null,
          onDay: '2026-05-12',
          note: '',
          what: 'counted',
          materialId: material().id,
          lot: '',
          expiresOn: null,
          containers: 3,
        },
      ],
    ]),
    recordPurchase: withInputs(() => [
      {
        ...{
          kind: 'purchase',
          jobId: null,
          onDay: '2026-05-12',
          note: '',
          supplier: 'Tarrow Falls Supply',
          category: 'Materials',
          taxMinor: 0,
        },
        lines: [{ text: 'Bags', quantity: 2, unit: 'bag', amountMinor: 7000, materialId: material().id, lot: 'A1', expiresOn: null }],
        ...{ method: 'card', reference: '', photoIds: [] },
      },
      [],
    ]),
    recordEntry: withInputs(() => {
      const {
        id: _id,
        createdAt: _c,
        changedAt: _h,
        deletedAt: _d,
        ...payment
      } = stored.ledger.find((row) => row['kind'] === 'payment') ?? {};
      return [payment];
    }),
    voidEntry: withInputs(() => [stored.ledger[0], 'Entered twice']),
  },
  'owner-commands': {
    mergeCustomers: withInputs(() => [stored.customers[0], stored.customers[1]]),
    moveProperty: withInputs(() => [storedJob().property, stored.customers[1]]),
  },
  'pour-log': {
    LOGGED_TWICE: null,
    storePour: withInputs(() => [{ ...stored.pours[0], id: newId() }, [event()]]),
    logPourEvent: withInputs(() => [event()]),
    resumePour: withInputs(() => [{ event: event() }]),
    closePour: withInputs(() => [stored.pours[0]?.['id']]),
  },
  'prep-commands': {
    signLine: withInputs(() => [JOB, ROOM, line, 'RT']),
    noteSignature: withInputs(() => [JOB, ROOM, 'Vacuum', signature, { note: 'x' }]),
    withdrawSignature: withInputs(() => [JOB, ROOM, 'Vacuum', signature]),
    setPrimed: withInputs(() => [JOB, ROOM, NOW, { coats: 1, lastPouredAt: null }]),
    setCoats: withInputs(() => [JOB, ROOM, 2, { lastPouredAt: null }]),
  },
  'quote-commands': {
    draftOf: null,
    nextQuote: null,
    storeQuote: withInputs(() => [
      { quote: { ...storedJob().quotes[0], id: newId(), revision: unused() }, superseded: [], tree: { ...tree('Quote'), blocks: [] } },
      { sha256: null, version: '0.1.0' },
    ]),
    // These call the desk; their database writes are tested as `storeQuote` and `storeDocument`.
    issueNext: null,
    recordAnswer: withInputs(() => [storedJob(), storedJob().quotes[0], { state: 'accepted', by: 'Adaeze', note: '', optionId: null }]),
    issueChangeOrder: null,
    recordOrder: withInputs(() => [storedJob(), storedJob().quotes[0], ORDER, { state: 'signed', by: 'Adaeze' }]),
  },
  // These call the desk; their database writes are tested as `storeDocument`, `recordAnswer` and `recordOrder`.
  'sign-commands': { signDocument: null },
  'reminder-commands': {
    readReminderState: null,
    useReminderState: null,
    changeReminderState: withInputs(() => [() => ({ since: NOW, problem: newId() })]),
    takeDue: null,
    giveBack: withInputs(() => [[]]),
  },
  'sample-commands': {
    addSample: withInputs(() => [{ customers: stored.customers }]),
    // The same writing, after the sample is computed.
    openSampleData: null,
    enterOwnCompany: null,
    removeSample: null,
    hasSample: null,
  },
  settings: { storeSetting: withInputs(() => ['look', 'dark']), useSetting: null, useInitials: null },
  write: {
    updated: null,
    write: withInputs(() => ['nothing', NOW, {}]),
    change: withInputs(() => ['customers', storedJob().customer.id, 'phone', NOW, (c: object) => ({ ...c, phone: newId() })]),
    add: withInputs(() => ['customers', { ...storedJob().customer, id: newId() }, 'new', NOW]),
    archive: withInputs(() => [[{ table: 'materials', id: material().id }], 'archived', NOW]),
    unarchive: withInputs(() => [[{ table: 'materials', id: material().id }], 'unarchived', NOW]),
    undo: withInputs(() => []),
    redo: withInputs(() => []),
  },
};
