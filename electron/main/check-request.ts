/** The one gate between page and program: what is asked must be in the contract and of its form. Pure. */
import { pageContract, type PageRequestName } from '../../core/contract/bridge.ts';
import { malformedRequest } from '../../core/contract/malformed-request.ts';
import type { Fault } from '../../core/contract/message.ts';

export type CheckedRequest =
  | { readonly ok: true; readonly name: PageRequestName; readonly payload: unknown }
  | { readonly ok: false; readonly fault: Fault };

export function checkRequest(name: unknown, payload: unknown): CheckedRequest {
  if (typeof name !== 'string' || !isPageRequestName(name)) {
    const shown = typeof name === 'string' ? `"${name.slice(0, 60)}"` : 'of that kind';
    const sentence = `The program has no request ${shown}. Nothing was done.`;
    return { ok: false, fault: { code: 'request-unknown', sentence } };
  }
  const parsed = pageContract[name].request.safeParse(payload);
  if (parsed.success) return { ok: true, name, payload: parsed.data };
  return { ok: false, fault: malformedRequest(name, parsed.error, pageContract[name].request, payload) };
}

function isPageRequestName(name: string): name is PageRequestName {
  return Object.hasOwn(pageContract, name);
}
