/** What is said while there is no recorder: nothing of a usual start, a warning at once where one has gone. */
import { expect, it } from 'vitest';
import { linkNotice } from '../../../renderer/link-notice.ts';

const FAULT = { code: 'recorder-gone', sentence: 'It has gone.' };
const connecting = { state: 'connecting', fault: null, restartCount: 0 } as const;

it('says nothing of a start that takes no longer than most, then a note', () => {
  const start = { link: connecting, fault: null, hadSession: false };
  expect(linkNotice({ ...start, takesLong: false })).toBeNull();
  expect(linkNotice({ ...start, takesLong: true })).toEqual({ severity: 'note', says: 'connecting' });
  expect(linkNotice({ ...start, link: null, fault: FAULT, takesLong: false })).toBeNull();
  expect(linkNotice({ ...start, link: null, fault: FAULT, takesLong: true })).toEqual({
    severity: 'warning',
    says: FAULT,
  });
});

it('says nothing of going over to another archive, or to the tour, before it takes long; then a note', () => {
  const over = { link: connecting, fault: null, hadSession: true };
  expect(linkNotice({ ...over, takesLong: false })).toBeNull();
  expect(linkNotice({ ...over, takesLong: true })).toEqual({ severity: 'note', says: 'connecting' });
});

it('warns at once when a recorder that was there has gone, with what is known of it', () => {
  for (const takesLong of [false, true])
    expect(
      linkNotice({ fault: null, hadSession: true, takesLong, link: { ...connecting, fault: FAULT } }),
    ).toEqual({ severity: 'warning', says: FAULT });
});

it('alarms at once of one that can’t be started, and says nothing of one that is there', () => {
  const seen = { fault: null, hadSession: false, takesLong: false };
  expect(linkNotice({ ...seen, link: { ...connecting, state: 'failed' } })).toEqual({
    severity: 'alarm',
    says: 'failed',
  });
  for (const hadSession of [false, true])
    expect(
      linkNotice({ ...seen, hadSession, takesLong: true, link: { ...connecting, state: 'connected' } }),
    ).toBeNull();
});
