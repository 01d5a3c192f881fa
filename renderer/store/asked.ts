/** Requests of long work, one after the other: a refusal ends it with its sentence. */
import type { Fault, ReplyOf, RequestInputOf, RequestName } from '../../core/contract/index.ts';
import { request } from './session-store.ts';

export class Refused extends Error {
  readonly fault: Fault;

  constructor(fault: Fault) {
    super(fault.sentence);
    this.fault = fault;
  }
}

/** Throws a Refused. */
export async function asked<N extends RequestName>(name: N, payload: RequestInputOf<N>): Promise<ReplyOf<N>> {
  const answer = await request(name, payload);
  if (!answer.ok) throw new Refused(answer.fault);
  return answer.value;
}
