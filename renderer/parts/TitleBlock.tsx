import type { ReactNode } from 'react';
import './TitleBlock.css';

/** The customer and property of a screen. */
export interface Who {
  readonly name: string;
  /** The address, or the city. */
  readonly where?: ReactNode;
  /** Right-aligned on the same line: the job number, or the last backup. */
  readonly right?: ReactNode;
  /** The first line of a small screen: `Vivian and Tom Odell: hall`. Without it the logo is shown. */
  readonly short?: string;
}

export function TitleBlock({ who }: { readonly who: Who }) {
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

interface SheetHeadingProps {
  readonly children: ReactNode;
  readonly under?: ReactNode;
  /** Right-aligned on the same line: date and time. */
  readonly right?: ReactNode;
}

/** The heading of a screen, within the drawing. */
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
