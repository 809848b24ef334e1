import { Link } from 'wouter';
import { KeyHint } from './Buttons.tsx';
import { Mark } from './Mark.tsx';
import { PAGES, type PageName, useSheetFrame } from './sheet-frame.ts';
import './TopLine.css';

/** The top line of every screen: logo, pages, and commands with their shortcuts. */
export function TopLine({ page }: { readonly page: PageName | null }) {
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
        <button type="button" onClick={openNewLead} aria-keyshortcuts="n">
          New lead
          <KeyHint keys="n" />
        </button>
        <button type="button" onClick={openSearch} aria-keyshortcuts="/">
          Search
          <KeyHint keys="/" />
        </button>
      </div>
    </header>
  );
}
