/** The one gate between page and program: what is asked must be in the contract and of its form. Pure. */
import { pageContract, type PageRequestName } from '../../core/contract/bridge.ts';
import type { Fault } from '../../core/contract/message.ts';

export type CheckedRequest =
  | { readonly ok: true; readonly name: PageRequestName; readonly payload: unknown }
  | { readonly ok: false; readonly fault: Fault };

/** Faults shown of one request; a page that is wrong in more ways is wrong in the first. */
const ISSUES_SHOWN_MAX = 3;

export function checkRequest(name: unknown, payload: unknown): CheckedRequest {
  if (typeof name !== 'string' || !isPageRequestName(name)) {
    const shown = typeof name === 'string' ? `"${name.slice(0, 60)}"` : 'of that kind';
    return refused('request-unknown', `The program has no request ${shown}. Nothing was done.`);
  }
  const parsed = pageContract[name].request.safeParse(payload);
  if (parsed.success) return { ok: true, name, payload: parsed.data };
  const issues = parsed.error.issues.slice(0, ISSUES_SHOWN_MAX);
  const field = issues[0]?.path.map(String).join('.') ?? '';
  const words = issues.map(
    (issue) => `${issue.path.map(String).join('.') || 'the request'}: ${issue.message}`,
  );
  return refused(
    'request-malformed',
    `"${name}" was asked for in a wrong form (${words.join('; ')}). Nothing was done.`.slice(0, 1_000),
    field,
  );
}

function isPageRequestName(name: string): name is PageRequestName {
  return Object.hasOwn(pageContract, name);
}

function refused(code: string, sentence: string, field = ''): CheckedRequest {
  return { ok: false, fault: { code, sentence, ...(field === '' ? {} : { field: field.slice(0, 200) }) } };
}
