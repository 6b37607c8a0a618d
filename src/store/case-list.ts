/**
 * What does the list of cases show, and is a backup due? Heads are small
 * records beside the cases, so that the list need not load any case. A head
 * only repeats what the events say: when it is lost or damaged the case is
 * listed from its header.
 */
import { type CaseState, isJsonObject } from '../engine.ts';

/** What a head says of its case, apart from the sequence. */
export interface CaseSummary {
  readonly title: string;
  readonly readings: number;
  /** ISO 8601 time of the last change. */
  readonly changedAt: string;
}

export interface HeadRecord extends CaseSummary {
  readonly schema: 1;
  readonly id: string;
  /** Highest event sequence stored; a new event takes the next number. */
  readonly sequence: number;
}

/** When a case was last saved to a file, and how many readings it had then. */
export interface BackupRecord {
  readonly schema: 1;
  readonly id: string;
  readonly at: string;
  readonly readings: number;
}

/** One row of the list of cases. */
export interface CaseHead extends CaseSummary {
  readonly id: string;
  /** ISO 8601 time of the last file saved from it, or `null`. */
  readonly backedUpAt: string | null;
  readonly readingsSinceBackup: number;
}

/** New readings, and days, after which a reminder to save a file is due. */
export const BACKUP_READINGS = 20;
export const BACKUP_DAYS = 7;
const DAY_MILLISECONDS = 86_400_000;

/** What the head of a case should say. */
export function summarise(state: CaseState, changedAt: string): CaseSummary {
  return { title: state.title, readings: state.readings.length, changedAt };
}

/** A stored head, or `null` when it is missing, damaged or newer than ours. */
export function readHead(value: unknown): HeadRecord | null {
  if (!isJsonObject(value) || value.schema !== 1) return null;
  const { id, title, readings, sequence, changedAt } = value;
  if (typeof id !== 'string' || typeof title !== 'string' || typeof changedAt !== 'string') return null;
  if (typeof readings !== 'number' || typeof sequence !== 'number') return null;
  return { schema: 1, id, title, readings, sequence, changedAt };
}

/** A stored note of a backup, or `null`. */
export function readBackup(value: unknown): BackupRecord | null {
  if (!isJsonObject(value) || value.schema !== 1) return null;
  const { id, at, readings } = value;
  if (typeof id !== 'string' || typeof at !== 'string' || typeof readings !== 'number') return null;
  return { schema: 1, id, at, readings };
}

/** Rows for the list, newest change first. `headers` are the headers of cases without a readable head. */
export function listHeads(
  heads: readonly HeadRecord[],
  headers: readonly unknown[],
  backups: readonly BackupRecord[],
): CaseHead[] {
  const backupOf = new Map(backups.map((backup) => [backup.id, backup]));
  const bare = headers.flatMap((header) => {
    if (!isJsonObject(header) || typeof header.id !== 'string') return [];
    const title = typeof header.title === 'string' ? header.title : header.id;
    return [{ id: header.id, title, readings: 0, changedAt: '' }];
  });
  const rows = [...heads, ...bare].map(({ id, title, readings, changedAt }): CaseHead => {
    const backup = backupOf.get(id);
    const readingsSinceBackup = Math.max(0, readings - (backup?.readings ?? 0));
    return { id, title, readings, changedAt, backedUpAt: backup?.at ?? null, readingsSinceBackup };
  });
  return rows.sort((a, b) => compareText(b.changedAt, a.changedAt) || compareText(a.id, b.id));
}

/** Whether to remind of saving a file: many new readings, or new ones and a week gone by. */
export function isBackupDue(head: CaseHead, now: Date): boolean {
  if (head.readingsSinceBackup === 0) return false;
  if (head.readingsSinceBackup >= BACKUP_READINGS) return true;
  return now.getTime() - Date.parse(head.backedUpAt ?? head.changedAt) >= BACKUP_DAYS * DAY_MILLISECONDS;
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
