import { useLocation } from 'wouter';
import { SearchPanel, type SearchResult } from '../parts/SearchPanel.tsx';

const MADE_UP: readonly SearchResult[] = [
  { id: '1', kind: 'customer', title: 'Marit Solberg', detail: '2 jobs', href: '/today' },
  { id: '2', kind: 'job', title: '26-014, 9 Quarry Steps', detail: 'Estimate', href: '/estimate' },
  { id: '3', kind: 'room', title: 'Dining hall', detail: '9 Quarry Steps', href: '/estimate' },
];

function find(query: string): readonly SearchResult[] {
  return MADE_UP.filter((r) =>
    `${r.id} ${r.kind} ${typeof r.title === 'string' ? r.title : ''}`.toLowerCase().includes(query.toLowerCase()),
  );
}

export function SearchGallery({ open, onClose }: { readonly open: boolean; readonly onClose: () => void }) {
  const [, go] = useLocation();
  return (
    <SearchPanel
      open={open}
      onClose={onClose}
      find={find}
      recent={MADE_UP.slice(0, 2)}
      onPick={(result) => {
        onClose();
        go(result.href);
      }}
    />
  );
}
