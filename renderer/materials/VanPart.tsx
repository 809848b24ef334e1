import type { Business } from '../../shared-core/book/business.ts';
import type { Material } from '../../shared-core/book/material.ts';
import { Fields } from '../parts/Fields.tsx';
import { NumberField } from '../parts/NumberField.tsx';

interface VanPartProps {
  readonly material: Material;
  readonly vanStock: Business['vanStock'];
  readonly onChange: (containers: number) => void;
}

/** More than this in a van is a slip. */
const MOST_CONTAINERS = 5000;

/** What of it is in the van: shopping lists leave that off. */
export function VanPart({ material, vanStock, onChange }: VanPartProps) {
  const containers = vanStock.filter((s) => s.materialId === material.id).reduce((sum, s) => sum + s.containers, 0);
  return (
    <section className="materials-part" aria-labelledby="materials-van">
      <h2 className="materials-part-head" id="materials-van">
        In the van
      </h2>
      <Fields>
        <NumberField
          label="In the van now"
          least={0}
          most={MOST_CONTAINERS}
          unit={containers === 1 ? material.container.name : `${material.container.name}s`}
          value={containers}
          emptyMessage="A number is needed here; 0 when there is none."
          hint="Part ones count: type 0.5. Shopping lists leave off what is here."
          onChange={(n) => n !== null && onChange(n)}
        />
      </Fields>
    </section>
  );
}
