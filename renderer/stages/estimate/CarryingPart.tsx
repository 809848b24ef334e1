import { carryingWords, LIFTING_WAYS } from '../../../shared-core/documents/material-words.ts';
import type { CarryingCaution } from '../../../shared-core/material/carrying.ts';
import type { JobTakeoff } from '../../../shared-core/material/job-takeoff.ts';
import { formatMass } from '../../../shared-core/measure/mass.ts';
import { batchCountWords } from '../../../shared-core/price/batch-words.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { Reason } from '../../parts/Reason.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

const SOURCE = 'revised NIOSH lifting equation, publication 94-110; postures common practice, no source';

const lifted = ({ ways }: CarryingCaution) => (['alone', 'cart', 'two'] as const).map((key) => ({ name: LIFTING_WAYS[key], ...ways[key] }));

/** Lifting by hand with the NIOSH equation as a caution, and what a cart or a second person changes. */
export function CarryingPart({ takeoff, isWhole }: { readonly takeoff: JobTakeoff; readonly isWhole: boolean }) {
  const { units, locale } = useMeasure();
  const { carrying } = takeoff;
  if (carrying === null) return null;
  const mass = (kg: number): string => formatMass(kg, units, locale);
  const times = (index: number | null): string =>
    index === null ? 'Not recommended' : `${formatNumber(index, { least: 1, most: 1 }, locale)} × the limit`;
  return (
    <BlockPart heading={isWhole ? 'Material to carry in' : 'To carry in'}>
      <dl className="figures">
        <div>
          <dt>Weight and number of lifts by hand</dt>
          <dd>
            <Reason
              why={{
                figureName: 'To carry in',
                inputs: [
                  { name: 'Bags', value: `${takeoff.bags}, each lifted twice` },
                  { name: 'Powder', value: mass(takeoff.powderKg) },
                  { name: 'Batches', value: `${batchCountWords(takeoff.batches, locale)}; each is carried once, with its water` },
                ],
                formula:
                  'Bags are carried from the van to the stack and from the stack to the bucket. Weight includes powder, water and aggregate.',
                source: 'common practice, no source',
                range: null,
              }}
            >
              {mass(carrying.totalKg)}, {formatNumber(carrying.lifts, { most: 0 }, locale)} lifts
            </Reason>
          </dd>
        </div>
        {lifted(carrying).map(({ name, ...way }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>
              <Reason
                why={{
                  figureName: name,
                  inputs: [
                    { name: 'Load', value: mass(way.loadKg) },
                    { name: 'Recommended limit', value: mass(way.limitKg) },
                  ],
                  formula:
                    'Load divided by the recommended weight limit. Over 1 is a risk for some people, over 3 for nearly everyone. It covers two-handed lifting while standing, not carrying or kneeling.',
                  source: SOURCE,
                  range: null,
                }}
              >
                {times(way.index)}
              </Reason>
            </dd>
          </div>
        ))}
      </dl>
      <p className="small">{carryingWords(carrying, units, locale)} This is a caution. Follow local rules on lifting.</p>
    </BlockPart>
  );
}
