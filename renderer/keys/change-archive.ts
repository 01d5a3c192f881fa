/** Another archive, chosen in the window's own dialog. */
import { say } from '../design/said.tsx';
import { request } from '../store/session-store.ts';
import { told } from '../words/told.ts';

/** Asks for another archive and goes over to it. */
export async function changeArchive(how: 'open' | 'new'): Promise<void> {
  const answer = await request('window.change-archive', { how });
  if (!answer.ok) say(told(answer.fault.sentence));
}
