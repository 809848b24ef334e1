/** Shows system notifications, by the desk where it can, else by the browser. */
import { askDesk } from '../desk/desk-client.ts';

export type Shown = { readonly ok: true } | { readonly ok: false; readonly why: string };

const NOT_TAKEN = 'The notification could not be shown. Allow notifications for Straightedge in your system settings.';
const REFUSED = 'Notifications are blocked for this page. Allow them in your browser settings, then turn reminders on again.';
const NO_WAY = 'This computer cannot show notifications. See Today for what is due.';

export async function noticeWay(): Promise<'machine' | 'browser' | 'none'> {
  const about = await askDesk('desk.about', {});
  if (about.ok && about.value.can.notify) return 'machine';
  return 'Notification' in window ? 'browser' : 'none';
}

/** Asks for the browser's permission, which it grants only during a press. */
export async function askLeave(): Promise<void> {
  if ((await noticeWay()) === 'browser' && Notification.permission === 'default') await Notification.requestPermission();
}

/** Shows a notification; returns why it could not, in a sentence. */
export async function showNotice(title: string, body: string): Promise<Shown> {
  switch (await noticeWay()) {
    case 'machine': {
      const answer = await askDesk('notice.show', { title, body });
      if (!answer.ok) return { ok: false, why: answer.error.message };
      return answer.value.shown ? { ok: true } : { ok: false, why: NOT_TAKEN };
    }
    case 'browser': {
      if (Notification.permission !== 'granted') return { ok: false, why: REFUSED };
      new Notification(title, { body, lang: 'en' });
      return { ok: true };
    }
    case 'none':
      return { ok: false, why: NO_WAY };
  }
}
