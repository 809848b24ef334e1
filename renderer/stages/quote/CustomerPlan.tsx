import type { Frozen } from '../../../shared-core/book/quote.ts';
import { planBlock } from '../../../shared-core/documents/quote-drawings.ts';
import type { RoomEstimate } from '../../../shared-core/price/estimate-room.ts';
import { DrawingRoom, DrawingView } from '../../parts/DrawingView.tsx';

/** The room as the customer's page of the quote shows it. */
export function CustomerPlan({ frozen, room }: { readonly frozen: Frozen; readonly room: RoomEstimate }) {
  return (
    <DrawingRoom leastPx={300} mostPx={340} smallRatio={1.1}>
      {({ widthPx, heightPx, small }) => {
        const block = planBlock(frozen, room, widthPx, heightPx, small);
        return block?.kind === 'drawing' ? <DrawingView drawing={block.drawing} label={block.alt} /> : null;
      }}
    </DrawingRoom>
  );
}
