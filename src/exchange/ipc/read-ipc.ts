/**
 * Reads an IPC-D-356 or 356A netlist file in a single pass: each line is
 * looked at once and either used or listed with its reason. Units, aliases and
 * the last layer may stand anywhere or nowhere, so pads are kept in counts and
 * finished at the end. Work is linear in the text.
 *
 * Source: IPC-D-356A as described in application note AN40; exporters' habits
 * as met in files, common practice, no source.
 */
import { bad, type Result } from '../../board/result.ts';
import { finishFile } from './finish-file.ts';
import type { IpcFile, IpcUnit } from './ipc-file.ts';
import {
  MAX_RECORDS,
  refuseLongText,
  refuseManyRecords,
  stopped,
  WATCH_EVERY_RECORDS,
  type Watch,
} from './limits.ts';
import { createLines } from './lines.ts';
import { RecordReader } from './record-reader.ts';

export const IPC_PROBLEMS = ['no-pads'] as const;

export interface ReadIpcOptions extends Watch {
  /** The user's word on the units; stronger than the header. */
  readonly unit?: IpcUnit;
}

/**
 * Reads a whole file.
 * @param text the file as text, at most `MAX_TEXT_CHARACTERS`
 * @returns the file with its notices; problems `file-too-large`,
 * `too-many-records`, `stopped`, or `no-pads` where it is no such file
 */
export function readIpc(text: string, options: ReadIpcOptions = {}): Result<IpcFile> {
  const refused = refuseLongText(text);
  if (refused !== null) return refused;
  const reader = new RecordReader();
  const lines = createLines(text);
  for (let line = lines.next(); line !== null; line = lines.next()) {
    if (!reader.read(line, lines.number)) continue;
    if (reader.records > MAX_RECORDS) return refuseManyRecords(lines.number);
    if (reader.records % WATCH_EVERY_RECORDS !== 0) continue;
    options.progress?.(lines.position, text.length);
    if (options.stop?.() === true) return stopped(lines.number);
  }
  options.progress?.(text.length, text.length);
  if (reader.pads.length === 0) {
    const what = `Expected test records such as 317 or 327, found none in ${reader.records} records.`;
    return bad({ code: 'no-pads', where: {}, what, mend: 'Check that this is an IPC-D-356 netlist file.' });
  }
  return finishFile(reader, lines.number, options.unit ?? null);
}
