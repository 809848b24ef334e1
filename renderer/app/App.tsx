import { useEffect, useState } from 'react';
import { Router } from 'wouter';
import { useHashLocation } from 'wouter/use-hash-location';
import { useOpenBackup } from '../book/open-read-only.ts';
import { nowInstant, type Outcome } from '../book/command.ts';
import { openBook, type Opened } from '../book/open-book.ts';
import { useSetting } from '../book/settings.ts';
import { useLook } from '../look/use-look.ts';
import { CrashGuard } from './CrashGuard.tsx';
import { Frame } from './Frame.tsx';
import { Routes } from './Routes.tsx';
import './app.css';

export function App() {
  const [opened, setOpened] = useState<Outcome<Opened> | null>(null);
  const looking = useOpenBackup();
  const chosen = useSetting('look');
  useLook(chosen === 'light' || chosen === 'dark' ? chosen : 'system');
  useEffect(() => {
    let isUnmounted = false;
    void openBook(nowInstant()).then((outcome) => {
      if (!isUnmounted) setOpened(outcome);
    });
    return () => {
      isUnmounted = true;
    };
  }, []);
  if (opened === null) return <p className="app-opening caption">Loading…</p>;
  if (!opened.ok) {
    return (
      <main className="app-stopped">
        <h1 className="speech">Your data could not be opened</h1>
        <p>{opened.message}</p>
      </main>
    );
  }
  return (
    <Router key={looking === null ? 'book' : `copy ${looking.madeAt}`} hook={useHashLocation}>
      <CrashGuard>
        <Frame>
          <Routes />
        </Frame>
      </CrashGuard>
    </Router>
  );
}
