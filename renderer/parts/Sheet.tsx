import { type ReactNode, useContext, useDeferredValue, useLayoutEffect, useState } from 'react';
import { Link } from 'wouter';
import type { Business } from '../../shared-core/book/business.ts';
import { PageList } from './PageList.tsx';
import { TextButton, KeyHint, LinkWord, useShortcut } from './Buttons.tsx';
import { NoticesContext, type PageName, useSheetFrame, PAGES } from './sheet-frame.ts';
import { useSize } from './DrawingView.tsx';
import { useMedia, useSmall } from './use-small.ts';
import './Sheet.css';
import './TitleBlock.css';
import { EmptyDrawing, type EmptyDrawingName } from './EmptyDrawing.tsx';
import './EmptySheet.css';
import './TopLine.css';

interface SheetProps {
  /** The current page in the top line. */
  readonly page: PageName | null;
  /** Customer and property, at the head of the title block. */
  readonly who: Who;
  /** The rooms as a plan with their states; on a small screen behind the word `roomsWord`. */
  readonly keyPlan?: ReactNode;
  readonly roomsWord?: string;
  /** The stages; the second line on a small screen. */
  readonly stages?: ReactNode;
  /** The fields: `BlockPart`s under the title block. */
  readonly block?: ReactNode;
  /** The drawing with its `SheetHeading`. */
  readonly children: ReactNode;
  /** The line from edge to edge (`Datum` or `DatumDrawing`). */
  readonly datum?: ReactNode;
  /** Keeps the datum and its answer in view while the rest scrolls, except in a low window; `on a desk` for a datum too high for a phone. */
  readonly datumSticks?: boolean | 'on a desk';
  /** What hangs under the datum and needs more height: ribbons, rows. */
  readonly below?: ReactNode;
  /** The result, in the foot: a sentence or `Answer`s. */
  readonly foot?: ReactNode;
  readonly action?: ReactNode;
  /** Fits the drawing to the window and keeps it in view while the fields beside it scroll. */
  readonly pinned?: boolean;
}

/** The frame of a screen: top line, drawing, title block, datum and foot. */
export function Sheet(props: SheetProps) {
  const { page, who, keyPlan, stages, block, children, datum, datumSticks = false, below, foot, action, pinned = false } = props;
  const [small, low] = [useSmall(), useMedia('low')];
  const notices = useContext(NoticesContext);
  const hasFoot = foot !== undefined || action !== undefined;
  const datumAtFoot = datumSticks !== false && datum !== undefined && !low && !(small && datumSticks === 'on a desk');
  const footSize = useSize<HTMLElement>('foot');
  // Present on a desk even when empty, so that nothing scrolls past the frame's lower line.
  const isFootShown = !small || hasFoot || datumAtFoot || notices !== null;
  const footPx = isFootShown ? (footSize.size?.heightPx ?? null) : 0;
  // Scrolls the focused element clear of the foot, whatever its height. Until it is measured the last screen's height stays: each change
  // styles the whole page again.
  useLayoutEffect(() => {
    if (footPx !== null) document.documentElement.style.setProperty('--foot', `${footPx}px`);
  }, [footPx]);
  return (
    <div className={`sheet${below === undefined ? '' : ' sheet-with-below'}${pinned ? ' sheet-pinned' : ''}`}>
      <a className="sheet-skip" href="#sheet-main" onClick={skipToMain}>
        Skip to content
      </a>
      {small ? <SmallTop {...props} /> : <TopLine page={page} />}
      <div className="sheet-body">
        <main className="sheet-main" id="sheet-main" tabIndex={-1}>
          {children}
        </main>
        <aside className="sheet-block" aria-label={who.name}>
          {!small && (
            <>
              <TitleBlock who={who} />
              {keyPlan !== undefined && <div className="block-part">{keyPlan}</div>}
              {stages !== undefined && <div className="block-part block-part-stages">{stages}</div>}
            </>
          )}
          {block}
        </aside>
      </div>
      {((!datumAtFoot && datum !== undefined) || below !== undefined) && (
        // A landmark, so that screen readers find the datum.
        <section className="sheet-datum" aria-label={`${who.name}: scale`}>
          {!datumAtFoot && datum}
          {below !== undefined && <div className="sheet-below">{below}</div>}
        </section>
      )}
      {isFootShown && (
        <footer ref={footSize.ref} className={`sheet-foot${datumAtFoot ? ' sheet-foot-datum' : ''}`}>
          {notices !== null && <div className="sheet-notices">{notices}</div>}
          {datumAtFoot && datum}
          {hasFoot && (
            <div className="sheet-foot-line">
              <div className="sheet-foot-words">{foot}</div>
              {action !== undefined && <div className="sheet-foot-action">{action}</div>}
            </div>
          )}
        </footer>
      )}
      {!small && <div className="sheet-frame" aria-hidden="true" />}
    </div>
  );
}

// The address holds the route, so the link's fragment must not be followed.
function skipToMain(event: { preventDefault: () => void }): void {
  event.preventDefault();
  document.getElementById('sheet-main')?.focus();
}

function SmallTop({ page, who, keyPlan, stages, roomsWord = 'Rooms' }: SheetProps) {
  const [open, setOpen] = useState(false);
  const { openSearch } = useSheetFrame();
  return (
    <header className="small-top">
      <div className="small-top-line">
        {who.short === undefined ? (
          <Link href="/" className="top-line-mark">
            <Mark />
            <span>Straightedge</span>
          </Link>
        ) : (
          <p className="small-top-name">{who.short}</p>
        )}
        <div className="small-top-words">
          {keyPlan !== undefined && (
            <TextButton kind="plain" expanded={open} onPress={() => setOpen(!open)}>
              {roomsWord}
            </TextButton>
          )}
          <PageList page={page} />
          {keyPlan === undefined && (
            <TextButton kind="plain" onPress={openSearch}>
              Search
            </TextButton>
          )}
        </div>
      </div>
      {open && (
        <div className="small-top-rooms">
          <TitleBlock who={who} />
          {keyPlan}
        </div>
      )}
      {stages !== undefined && <div className="small-top-stages">{stages}</div>}
    </header>
  );
}

/** Whose screen it is where it is about no customer. */
export const companyWho = ({ name, address }: Business): Who => ({ name: name === '' ? 'Your company' : name, where: address.city });

/** The customer and property of a screen. */
interface Who {
  readonly name: string;
  /** The address, or the city. */
  readonly where?: ReactNode;
  /** Right-aligned on the same line: the job number, or the last backup. */
  readonly right?: ReactNode;
  /** The first line of a small screen: `Hall, Vivian and Tom Odell`; its end may be cut. Without it the logo is shown. */
  readonly short?: string;
}

function TitleBlock({ who }: { readonly who: Who }) {
  return (
    <div className="title-block">
      <p className="speech title-block-name">{who.name}</p>
      {(who.where !== undefined || who.right !== undefined) && (
        <div className="ends-line title-block-line">
          <span>{who.where}</span>
          <span>{who.right}</span>
        </div>
      )}
    </div>
  );
}

/** One part of the title block, under a line. `heading` is its italic caption. */
export function BlockPart({ heading, children }: { readonly heading?: string; readonly children: ReactNode }) {
  return (
    <section className="block-part">
      {heading !== undefined && <h2 className="caption">{heading}</h2>}
      {children}
    </section>
  );
}

/** Parts that are drawn after the screen's result, because a long column of fields takes as long as everything else. */
export function LaterParts({ children }: { readonly children: ReactNode }) {
  const isTime = useDeferredValue(true, false);
  return isTime && children;
}

interface SheetHeadingProps {
  readonly children: ReactNode;
  readonly under?: ReactNode;
  /** Right-aligned on the same line: date and time. */
  readonly right?: ReactNode;
}

export function SheetHeading({ children, under, right }: SheetHeadingProps) {
  return (
    <div>
      <div className="ends-line">
        <h1 className="speech">{children}</h1>
        {right !== undefined && <span className="small">{right}</span>}
      </div>
      {under !== undefined && <p className="small">{under}</p>}
    </div>
  );
}

interface EmptySheetProps {
  /** What will be here: `The floor’s readings go here.` */
  readonly heading: string;
  readonly hint?: ReactNode;
  readonly first?: ReactNode;
  /** Another way to start, such as the sample data. */
  readonly or?: ReactNode;
  readonly headingLevel?: 'h1' | 'h2';
  /** Which drawing to show; a room by default. */
  readonly drawing?: EmptyDrawingName;
}

/** A screen, or a part of one, that has nothing on it yet. */
export function EmptySheet({ heading, hint, first, or, headingLevel: Heading = 'h2', drawing = 'room' }: EmptySheetProps) {
  return (
    <div className="empty-sheet">
      <EmptyDrawing name={drawing} />
      <div className="stack empty-sheet-words">
        <Heading className="speech">{heading}</Heading>
        {hint !== undefined && <p>{hint}</p>}
        {(first !== undefined || or !== undefined) && (
          <div className="empty-sheet-steps">
            {first}
            {or}
          </div>
        )}
      </div>
    </div>
  );
}

/** The top line of every screen: logo, pages, and commands with their shortcuts. */
function TopLine({ page }: { readonly page: PageName | null }) {
  const { undo, openSearch, openNewLead } = useSheetFrame();
  return (
    <header className="top-line">
      <Link href="/" className="top-line-mark" aria-label="Straightedge">
        <Mark />
        <span>Straightedge</span>
      </Link>
      <nav aria-label="Pages">
        <ul className="top-line-pages">
          {PAGES.map(({ name, href }) => (
            <li key={name}>
              <Link href={href} aria-current={name === page ? 'page' : undefined}>
                {name}
              </Link>
            </li>
          ))}
        </ul>
      </nav>
      <div className="top-line-commands">
        <button
          type="button"
          onClick={undo?.run}
          disabled={undo === null}
          title={undo === null ? 'Nothing to undo' : `Undo: ${undo.label}`}
        >
          Undo{undo !== null && <span className="hidden-words"> {undo.label}</span>}
          <KeyHint keys="mod+z" />
        </button>
        <button type="button" onClick={openNewLead ?? undefined} disabled={openNewLead === null} aria-keyshortcuts={useShortcut('n')}>
          New lead
          <KeyHint keys="n" />
        </button>
        <button type="button" onClick={openSearch} aria-keyshortcuts={useShortcut('/')}>
          Search
          <KeyHint keys="/" />
        </button>
      </div>
    </header>
  );
}

/** The program's logo: a graduated straightedge with the pointer on it. */
function Mark() {
  return (
    <svg width="30" height="18" viewBox="0 0 30 18" aria-hidden="true" focusable="false">
      <path d="M0 14.5H30" stroke="var(--ink)" strokeWidth="2" />
      <path d="M3.5 14V9.5M7.5 14V11.5M22.5 14V11.5M26.5 14V9.5" stroke="var(--ink)" strokeWidth="1" />
      <path d="M10 5H20L15 13.5Z" fill="var(--paper)" stroke="var(--ink)" strokeWidth="1.25" />
      <path d="M15 5H20L15 13.5Z" fill="var(--ink)" />
    </svg>
  );
}

interface NotFoundProps {
  readonly page: PageName;
  /** What was looked for: `Customer`. */
  readonly what: string;
  readonly drawing: EmptyDrawingName;
  readonly heading: string;
  readonly hint?: string;
}

/** Shown when an address names a record that is not there. */
export function NotFound({ page, what, drawing, heading, hint }: NotFoundProps) {
  return (
    <Sheet page={page} who={{ name: page }}>
      <SheetHeading>{what} not found</SheetHeading>
      <EmptySheet
        drawing={drawing}
        heading={heading}
        hint={hint}
        first={<LinkWord href={PAGES.find(({ name }) => name === page)?.href ?? '/'}>Go to {page}</LinkWord>}
      />
    </Sheet>
  );
}
