import { Dialog, DialogTrigger, Modal, ModalOverlay } from 'react-aria-components';
import { Link } from 'wouter';
import { TextButton, PressWord } from './Buttons.tsx';
import { PAGES, type PageName, useSheetFrame } from './sheet-frame.ts';
import './PageList.css';

/** The pages of the top line on a small screen, as a list with the commands at its end. */
export function PageList({ page }: { readonly page: PageName | null }) {
  const { undo, openSearch, openNewLead } = useSheetFrame();
  const commands = [
    { word: 'New lead', run: openNewLead },
    { word: 'Search', run: openSearch },
    { word: undo === null ? 'Nothing to undo' : `Undo: ${undo.label}`, run: undo?.run ?? null },
  ];
  return (
    <DialogTrigger>
      <PressWord>Pages</PressWord>
      <ModalOverlay className="page-list-ground" isDismissable>
        <Modal className="page-list">
          <Dialog aria-label="Pages" className="page-list-inner">
            {({ close }) => (
              <>
                <nav aria-label="Pages">
                  <ul>
                    {PAGES.map(({ name, href }) => (
                      <li key={name}>
                        <Link href={href} onClick={close} aria-current={name === page ? 'page' : undefined}>
                          {name}
                        </Link>
                      </li>
                    ))}
                  </ul>
                </nav>
                <div className="page-list-foot">
                  {commands.map(({ word, run }) => (
                    <TextButton
                      key={word}
                      kind="plain"
                      disabled={run === null}
                      onPress={() => {
                        close();
                        run?.();
                      }}
                    >
                      {word}
                    </TextButton>
                  ))}
                  <TextButton onPress={close}>Close</TextButton>
                </div>
              </>
            )}
          </Dialog>
        </Modal>
      </ModalOverlay>
    </DialogTrigger>
  );
}
