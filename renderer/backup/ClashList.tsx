import { RECORD_WORDS } from '../../shared-core/book/data-check.ts';
import type { RecordClash } from '../../shared-core/book/import-plan.ts';
import { formatInstant } from '../../shared-core/measure/moment.ts';
import { capital } from '../../shared-core/measure/first-letter.ts';
import { SelectField } from '../parts/Choices.tsx';
import { Table } from '../parts/Table.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { bothWords, fieldWords, type ValueSetting } from './field-words.ts';
import type { NamedRows } from './import-from-backup.ts';

interface ClashListProps {
  readonly clashes: readonly RecordClash[];
  readonly names: NamedRows;
  /** The fields to take from the backup, by the record's key. */
  readonly fields: ReadonlyMap<string, ReadonlySet<string>>;
  readonly setting: ValueSetting;
  readonly onFields: (key: string, taken: ReadonlySet<string>) => void;
}

const FROM = { ours: 'Your data', theirs: 'Backup' };

/** Records that differ, field by field, with the date each side last changed. */
export function ClashList({ clashes, names, fields, setting, onFields }: ClashListProps) {
  const named = (id: string): string | null => names.get(id) ?? null;
  const changeTime = (instant: string): string =>
    instant === '' ? 'unknown' : formatInstant(instant, setting.zone, 'field', setting.locale);
  return (
    <div className="backup-import">
      <p className="small">
        {clashes.length === 1 ? '1 record differs.' : `${clashes.length} records differ.`} The side that changed last is chosen. Records
        that only one side has are kept.
      </p>
      {clashes.map((clash) => {
        const chosenFields = fields.get(clash.key) ?? new Set<string>();
        const recordWord = RECORD_WORDS[clash.table];
        const own = names.get(String(clash.row['id'])) ?? (typeof clash.row['title'] === 'string' ? clash.row['title'] : '');
        const heading = `${capital(recordWord)}${own === '' ? '' : ` ${own}`}`;
        return (
          <section key={clash.key} aria-label={heading}>
            <h3 className="speech">{heading}</h3>
            <p className="small">
              Your data changed {changeTime(clash.inBook)}. Backup changed {changeTime(clash.inCopy)}.
            </p>
            <Table
              label={`${heading}: fields that differ`}
              dense
              rows={clash.fields}
              rowKey={(field) => field.path}
              columns={[
                { caption: 'Field', heads: true, cell: (field) => fieldWords(field, named) },
                { caption: 'Your data', cell: (field) => bothWords(field, named, setting).ours },
                { caption: 'Backup', cell: (field) => bothWords(field, named, setting).theirs },
                {
                  caption: 'Use',
                  cell: (field) => (
                    <SelectField
                      bare
                      label={`Source of ${fieldWords(field, named)}`}
                      value={chosenFields.has(field.path) ? 'theirs' : 'ours'}
                      options={FROM}
                      onChange={(from) =>
                        onFields(
                          clash.key,
                          new Set(from === 'theirs' ? [...chosenFields, field.path] : [...chosenFields].filter((p) => p !== field.path)),
                        )
                      }
                    />
                  ),
                },
              ]}
            />
            {clash.fields.length > 1 && (
              <div className="words">
                <TextButton onPress={() => onFields(clash.key, new Set())}>Use all of your data</TextButton>
                <TextButton onPress={() => onFields(clash.key, new Set(clash.fields.map(({ path }) => path)))}>
                  Use all of the backup
                </TextButton>
              </div>
            )}
          </section>
        );
      })}
    </div>
  );
}
