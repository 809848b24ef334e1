/** The page's entry: finds the machine, opens the book, shows the first sheet. */
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import '../look/global.css';
import { watchLeaving } from '../book/unwritten.ts';
import { findDesk } from '../parts/desk-client.ts';
import { App } from './App.tsx';

findDesk();
watchLeaving();
const place = document.getElementById('book');
if (place !== null) {
  createRoot(place).render(
    <StrictMode>
      <App />
    </StrictMode>,
  );
}
