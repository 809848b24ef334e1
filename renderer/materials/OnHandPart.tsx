import type { Material } from '../../shared-core/book/material.ts';
import { containerOf } from '../../shared-core/material/containers.ts';
import type { Stock } from '../../shared-core/ledger/stock.ts';
import { formatDay } from '../../shared-core/measure/day.ts';
import { formatNumber } from '../../shared-core/measure/number.ts';
import { LinkWord } from '../parts/Buttons.tsx';
import { TextField } from '../parts/Fields.tsx';
import { useMeasure } from '../parts/use-measure.ts';

interface OnHandPartProps {
  readonly material: Material;
  readonly stock: Stock | undefined;
  readonly onSupplier: (supplier: string) => void;
}

export function OnHandPart({ material, stock, onSupplier }: OnHandPartProps) {
  const { locale } = useMeasure();
  const lots = (stock?.lots ?? []).filter((lot) => lot.materialId === material.id);
  return (
    <section className="materials-part" aria-labelledby="materials-on-hand">
      <h2 className="materials-part-head" id="materials-on-hand">
        On hand
      </h2>
      {lots.length === 0 ? (
        <p className="small">None on hand.</p>
      ) : (
        <ul className="price-list">
          {lots.map((lot) => (
            <li key={lot.lot}>
              {`${formatNumber(lot.containers, { most: 1 }, locale)} × ${containerOf(material).name}${lot.lot === '' ? '' : `, lot ${lot.lot}`}${lot.expiresOn === null ? '' : `, expires ${formatDay(lot.expiresOn, 'dated', locale)}`}`}
            </li>
          ))}
        </ul>
      )}
      <p>
        <LinkWord href="/stock">Go to Stock</LinkWord>
      </p>
      <TextField label="Supplier" value={material.supplier} onChange={onSupplier} hint="The shopping list is sorted by supplier." />
    </section>
  );
}
