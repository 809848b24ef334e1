/** Development only: every part in every state. `?look=dark` shows the dark look. */
import { StrictMode, useMemo, useState } from 'react';
import { createRoot } from 'react-dom/client';
import { Route, Router, Switch } from 'wouter';
import { useHashLocation } from 'wouter/use-hash-location';
import '../look/global.css';
import { type Look, useLook } from '../look/use-look.ts';
import { SheetFrameContext } from '../parts/sheet-frame.ts';
import { useKeys } from '../parts/use-keys.ts';
import { EmptyGallery } from './EmptyGallery.tsx';
import { EstimateGallery } from './EstimateGallery.tsx';
import { SearchGallery } from './SearchGallery.tsx';
import { PartsGallery } from './PartsGallery.tsx';
import { PourGallery } from './PourGallery.tsx';
import { TodayGallery } from './TodayGallery.tsx';

function readLook(): Look {
  const asked = new URLSearchParams(location.search).get('look');
  return asked === 'dark' || asked === 'light' ? asked : 'system';
}

function Gallery() {
  useLook(readLook());
  const [finding, setFinding] = useState(false);
  useKeys({ '/': () => setFinding(true) });
  const frame = useMemo(
    () => ({
      undo: { label: 'reading 12', run: () => undefined },
      openSearch: () => setFinding(true),
      openNewLead: () => undefined,
      notices: null,
    }),
    [],
  );
  return (
    <Router hook={useHashLocation}>
      <SheetFrameContext value={frame}>
        <Switch>
          <Route path="/today" component={TodayGallery} />
          <Route path="/estimate" component={EstimateGallery} />
          <Route path="/empty" component={EmptyGallery} />
          <Route path="/pour" component={PourGallery} />
          <Route component={PartsGallery} />
        </Switch>
        <SearchGallery open={finding} onClose={() => setFinding(false)} />
      </SheetFrameContext>
    </Router>
  );
}

const place = document.getElementById('gallery');
if (place !== null) {
  createRoot(place).render(
    <StrictMode>
      <Gallery />
    </StrictMode>,
  );
}
