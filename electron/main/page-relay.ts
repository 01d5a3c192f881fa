/** Requests of the page: who asks is checked, what is asked is checked, then it is answered here or handed on. */
import type { IpcMainEvent, IpcMainInvokeEvent, WebContents } from 'electron';
import type {
  PageEventName,
  PageReplyOf,
  PageRequestName,
  PageRequestOf,
} from '../../core/contract/bridge.ts';
import { isRequestName, type RequestName } from '../../core/contract/index.ts';
import type { Answer } from '../../core/contract/message.ts';
import type { windowRequests } from '../../core/contract/window-requests.ts';
import { checkRequest } from './check-request.ts';
import { isPageAddress } from './page-address.ts';
import { isPageEventName } from './page-outbox.ts';
import type { PageRelay } from './page-start.ts';
import type { WindowLog } from './window-log.ts';

export type WindowRequestName = keyof typeof windowRequests;
export type WindowHandlers = {
  readonly [N in WindowRequestName]: (
    payload: PageRequestOf<N>,
  ) => Answer<PageReplyOf<N>> | Promise<Answer<PageReplyOf<N>>>;
};

export interface PageRelayOptions {
  readonly page: () => WebContents | null;
  readonly handlers: WindowHandlers;
  /** Stands around every request that was checked. */
  readonly watch: (name: PageRequestName, doing: () => Promise<Answer<unknown>>) => Promise<Answer<unknown>>;
  readonly askRecorder: (name: RequestName, payload: unknown) => Promise<Answer<unknown>>;
  readonly onTaken: (number: number) => void;
  readonly onListens: (name: PageEventName) => void;
  readonly onPong: () => void;
  readonly log: WindowLog;
}

export function relayPage({
  page,
  handlers,
  watch,
  askRecorder,
  onTaken,
  onListens,
  onPong,
  log,
}: PageRelayOptions): PageRelay {
  const isOurs = (event: IpcMainEvent | IpcMainInvokeEvent): boolean => {
    const frame = event.senderFrame;
    const contents = page();
    // Only the top frame of our own window, showing our own page.
    const ours =
      contents !== null &&
      event.sender === contents &&
      frame !== null &&
      frame === contents.mainFrame &&
      isPageAddress(frame.url);
    if (!ours) log.note(`refused: a message from ${frame?.url.slice(0, 200) ?? 'a page that is gone'}`);
    return ours;
  };

  return {
    request: async (event, name, payload): Promise<Answer<unknown>> => {
      if (!isOurs(event)) return NOT_FOR_YOU;
      const checked = checkRequest(name, payload);
      if (!checked.ok) {
        log.note(`refused: ${checked.fault.sentence}`);
        return { ok: false, fault: checked.fault };
      }
      const { name: asked, payload: given } = checked;
      return watch(asked, () =>
        isRequestName(asked) ? askRecorder(asked, given) : answerHere(handlers, asked, given),
      );
    },
    taken: (event, number) => {
      if (isOurs(event) && typeof number === 'number') onTaken(number);
    },
    listens: (event, name) => {
      if (isOurs(event) && isPageEventName(name)) onListens(name);
    },
    pong: (event) => {
      if (isOurs(event)) onPong();
    },
  };
}

async function answerHere(
  handlers: WindowHandlers,
  name: Exclude<PageRequestName, RequestName>,
  payload: unknown,
): Promise<Answer<unknown>> {
  // The payload has passed this very name's schema.
  const handler = handlers[name] as (payload: unknown) => Answer<unknown> | Promise<Answer<unknown>>;
  return handler(payload);
}

const NOT_FOR_YOU: Answer<never> = {
  ok: false,
  fault: { code: 'sender-refused', sentence: 'Only the program’s own page may ask. Nothing was done.' },
};
