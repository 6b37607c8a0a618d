/**
 * What passes between page and worker: one question, one reply, joined by a
 * number. Both ends are ours, so the check is of the outline only; what the
 * verbs take is checked by types.
 */

export interface Question {
  readonly ask: number;
  readonly verb: string;
  readonly request: unknown;
}

export type Reply =
  | { readonly ask: number; readonly ok: true; readonly value: unknown }
  | { readonly ask: number; readonly ok: false; readonly message: string };

export function isQuestion(message: unknown): message is Question {
  return isRecord(message) && typeof message.ask === 'number' && typeof message.verb === 'string';
}

export function isReply(message: unknown): message is Reply {
  if (!isRecord(message) || typeof message.ask !== 'number') return false;
  return message.ok === true || (message.ok === false && typeof message.message === 'string');
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}
