import { useEffect, useState, Component, type ErrorInfo, type ReactNode } from 'react';
import { Router } from 'wouter';
import { useHashLocation } from 'wouter/use-hash-location';
import { useOpenBackup } from '../book/open-read-only.ts';
import { nowInstant, type Outcome } from '../book/command.ts';
import { openBook, type Opened } from '../book/open-book.ts';
import { useSetting } from '../book/settings.ts';
import { useLook } from '../look/use-look.ts';
import { Frame } from './Frame.tsx';
import { Routes } from './Routes.tsx';
import './app.css';
import { ActionButton } from '../parts/Buttons.tsx';
import { askDesk } from '../desk/desk-client.ts';

export function App() {
  const [opened, setOpened] = useState<Outcome<Opened> | null>(null);
  const looking = useOpenBackup();
  const chosen = useSetting('look');
  useLook(chosen === 'light' || chosen === 'dark' ? chosen : 'system');
  useEffect(() => void openBook(nowInstant()).then(setOpened), []);
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

/** Catches errors while drawing, logs them, and offers a reload. Saved data is on disk already. */
class CrashGuard extends Component<{ readonly children: ReactNode }, { readonly failed: string | null }> {
  override state: { readonly failed: string | null } = { failed: null };

  static getDerivedStateFromError(error: unknown): { failed: string } {
    return { failed: error instanceof Error ? error.message : String(error) };
  }

  override componentDidCatch(error: unknown, info: ErrorInfo): void {
    const stack = error instanceof Error ? (error.stack ?? error.message) : String(error);
    void askDesk('log.write', { level: 'error', message: `${stack}\n${info.componentStack ?? ''}`.slice(0, 8000) });
  }

  override render(): ReactNode {
    if (this.state.failed === null) return this.props.children;
    return (
      <main className="app-stopped">
        <h1 className="speech">This screen could not be displayed</h1>
        <p>What you saved is safe. The error was written to the log: {this.state.failed}</p>
        <ActionButton
          onPress={() => {
            location.hash = '#/';
            location.reload();
          }}
        >
          Go to Today
        </ActionButton>
      </main>
    );
  }
}
