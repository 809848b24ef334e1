/** The entry of the page: connects to the desk, opens the database, shows the first screen. */
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import '../look/global.css';
import { watchLeaving } from '../book/pending.ts';
import { findDesk } from '../desk/desk-client.ts';
import { App } from './App.tsx';
import { watchPageFailures } from './page-failures.ts';

findDesk();
watchLeaving();
watchPageFailures();
const place = document.getElementById('book');
if (place !== null) {
  createRoot(place).render(
    <StrictMode>
      <App />
    </StrictMode>,
  );
}
