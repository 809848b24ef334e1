import { Component, type ErrorInfo, type ReactNode } from 'react';
import { ActionButton } from '../parts/Buttons.tsx';
import { askDesk } from '../desk/desk-client.ts';

/** Catches errors while drawing, logs them, and offers a reload. Saved data is on disk already. */
export class CrashGuard extends Component<{ readonly children: ReactNode }, { readonly failed: string | null }> {
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
