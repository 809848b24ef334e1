import type { ReactNode } from 'react';
import { Button, Dialog, DialogTrigger, Heading, Popover } from 'react-aria-components';
import { RangeMark } from './RangeMark.tsx';
import './Reason.css';

export interface ReasonWhy {
  /** The name of the figure: `Bags for the hall`. */
  readonly figureName: string;
  /** Inputs, each with its value and its source, if any. */
  readonly inputs: readonly { readonly name: string; readonly value: ReactNode; readonly source?: string }[];
  readonly formula: string;
  readonly source: string;
  /** Null when the figure is exact. */
  readonly range: { readonly leastText: string; readonly mostText: string; readonly value: number | null; readonly words?: string } | null;
  /** A caution, or where to change an input. */
  readonly more?: ReactNode;
}

/** A figure with a dotted underline that opens its inputs, calculation, source and range. */
export function Reason({ children, why }: { readonly children: ReactNode; readonly why: ReasonWhy }) {
  return (
    <DialogTrigger>
      <Button className="reason">{children}</Button>
      <Popover className="reason-panel" offset={10} containerPadding={12}>
        <Dialog className="reason-inner">
          <Heading slot="title" className="reason-name">
            {why.figureName}
          </Heading>
          <h3 className="caption">Inputs</h3>
          <dl className="reason-inputs">
            {why.inputs.map(({ name, value, source }) => (
              <div key={name}>
                <dt>{name}</dt>
                <dd>
                  {value}
                  {source !== undefined && <cite> {source}</cite>}
                </dd>
              </div>
            ))}
          </dl>
          <h3 className="caption">Calculation</h3>
          <p>{why.formula}</p>
          {why.range !== null && (
            <>
              <h3 className="caption">Range</h3>
              <p>
                <RangeMark leastText={why.range.leastText} mostText={why.range.mostText} value={why.range.value} />
              </p>
              {why.range.words !== undefined && <p>{why.range.words}</p>}
            </>
          )}
          <h3 className="caption">Source</h3>
          <p>
            <cite>{why.source}</cite>
          </p>
          {why.more !== undefined && <div className="reason-more">{why.more}</div>}
          <Button slot="close" className="text-button text-button-underlined reason-close">
            <span className="text-button-word">Close</span>
          </Button>
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}
