import type { ReactNode } from 'react';
import './TitleBlock.css';

/** Who and where a sheet is about. */
export interface Who {
  readonly name: string;
  /** The address, or the town. */
  readonly where?: ReactNode;
  /** At the right of the same line: the job's number, when the book was copied. */
  readonly right?: ReactNode;
  /** The first line of a small screen: `Vivian and Tom Odell: hall`. Without it the mark stands there. */
  readonly short?: string;
}

/** The head of the title block. */
export function TitleBlock({ who }: { readonly who: Who }) {
  return (
    <div className="title-block">
      <p className="speech title-block-name">{who.name}</p>
      {(who.where !== undefined || who.right !== undefined) && (
        <div className="title-block-line">
          <span>{who.where}</span>
          <span>{who.right}</span>
        </div>
      )}
    </div>
  );
}

/** One part of the title block, under its line. `heading` is its italic caption. */
export function BlockPart({ heading, children }: { readonly heading?: string; readonly children: ReactNode }) {
  return (
    <section className="block-part">
      {heading !== undefined && <h2 className="caption">{heading}</h2>}
      {children}
    </section>
  );
}

interface SheetHeadingProps {
  /** The one heading of the sheet. */
  readonly children: ReactNode;
  /** A plain line under it. */
  readonly under?: ReactNode;
  /** At the right of the same line: the moment. */
  readonly right?: ReactNode;
}

/** The sheet's heading, as it stands in the drawing. */
export function SheetHeading({ children, under, right }: SheetHeadingProps) {
  return (
    <div className="sheet-heading">
      <div className="sheet-heading-line">
        <h1 className="speech">{children}</h1>
        {right !== undefined && <span className="small">{right}</span>}
      </div>
      {under !== undefined && <p className="small">{under}</p>}
    </div>
  );
}
