/** Whose messages are answered. The content policy lets no frame load inside the page, so that only here one asks (P12). */
import type { IpcMainEvent, IpcMainInvokeEvent, WebContents } from 'electron';
import { expect, it } from 'vitest';
import { PAGE_ADDRESS } from '../../../electron/main/page-address.ts';
import { type WindowHandlers, relayPage } from '../../../electron/main/page-relay.ts';

const TOP = { url: PAGE_ADDRESS };
const PAGE = { mainFrame: TOP };
const ELSEWHERE = { mainFrame: { url: 'data:text/html,x' } };

/** What reaches the program of everything that a sender can send. */
async function heardOf(
  sender: object,
  senderFrame: object | null,
): Promise<{ heard: readonly string[]; answer: unknown }> {
  const heard: string[] = [];
  const relay = relayPage({
    page: () => PAGE as unknown as WebContents,
    handlers: {} as WindowHandlers,
    watch: (_name, doing) => doing(),
    askRecorder: (name) => {
      heard.push(name);
      return Promise.resolve({ ok: true, value: null });
    },
    onTaken: () => heard.push('taken'),
    onListens: () => heard.push('listens'),
    onPong: () => heard.push('pong'),
    log: { path: '', note: () => undefined },
  });
  const event = { sender, senderFrame } as unknown as IpcMainEvent & IpcMainInvokeEvent;
  const answer = await relay.request(event, 'session.get', {});
  relay.taken(event, 1);
  relay.listens(event, 'session');
  relay.pong(event);
  return { heard, answer };
}

it('the top frame of the own page is heard (P12)', async () => {
  expect(await heardOf(PAGE, TOP)).toEqual({
    heard: ['session.get', 'taken', 'listens', 'pong'],
    answer: { ok: true, value: null },
  });
});

it.each([
  ['a frame inside it, of the same address', PAGE, { url: PAGE_ADDRESS }],
  ['a frame inside it, of another address', PAGE, { url: 'about:blank' }],
  ['a frame that is gone', PAGE, null],
  ['another page', ELSEWHERE, ELSEWHERE.mainFrame],
  ['another page that gives the own top frame', ELSEWHERE, TOP],
])('%s is refused, and nothing is done (P12)', async (_who, sender, frame) => {
  expect(await heardOf(sender, frame)).toMatchObject({
    heard: [],
    answer: { ok: false, fault: { code: 'sender-refused' } },
  });
});
