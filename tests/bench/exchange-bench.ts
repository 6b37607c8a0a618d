/**
 * How long does a whole board take to come in? Reads a generated 356A file,
 * proposes a map, checks and compiles it, beside the time it takes merely to
 * split the same text into lines (each line looked at, so that nothing is put
 * off), and says how much memory is held at the end and at the most.
 *
 *   npx tsx tests/bench/exchange-bench.ts [records] [seed]
 */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { checkMap } from '../../src/board/check-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import type { Result } from '../../src/board/result.ts';
import { pointRowsOfMap, printPointTable, readPointTable } from '../../src/exchange/csv/netlist-tables.ts';
import { graphOfBoard } from '../../src/exchange/graphml/graph-document.ts';
import { parseGraphml } from '../../src/exchange/graphml/parse-graphml.ts';
import { printGraphml } from '../../src/exchange/graphml/print-graphml.ts';
import { printIpc } from '../../src/exchange/ipc/print-ipc.ts';
import { plainRequest, proposeMap } from '../../src/exchange/ipc/propose.ts';
import { readIpc } from '../../src/exchange/ipc/read-ipc.ts';
import { generateIpcFile } from '../exchange/ipc-files.ts';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;
const RUNS = 5;
const recordCount = Number(process.argv[2] ?? 100_000);
const seed = Number(process.argv[3] ?? 356);
const megabytes = (bytes: number): string => `${(bytes / 1e6).toFixed(0)} MB`;
let mostBytes = 0;

function time<T>(name: string, work: () => T): T {
  const times: number[] = [];
  let result = work();
  for (let run = 0; run < RUNS; run++) {
    const start = performance.now();
    result = work();
    times.push(performance.now() - start);
    mostBytes = Math.max(mostBytes, process.memoryUsage().heapUsed);
  }
  times.sort((a, b) => a - b);
  console.log(
    `${name.padEnd(34)} ${times[0]?.toFixed(0).padStart(6)} ms least, ${times[RUNS >> 1]?.toFixed(0)} ms median`,
  );
  return result;
}

function value<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.problems.map(({ what }) => what).join(' '));
  return result.value;
}

const text = generateIpcFile(seed, recordCount);
collect();
const before = process.memoryUsage().heapUsed;
console.log(`${recordCount} records, ${megabytes(text.length)}, seed ${seed}`);
let looks = 0;
time('split into lines', () => {
  for (const line of text.split('\n')) looks += line.charCodeAt(line.length - 1);
  return looks;
});
const file = time('read', () => value(readIpc(text)));
const request = plainRequest(file.pads, 'radio', 'Generated');
const proposal = time('propose a map', () => value(proposeMap(request)));
time('check the map', () => checkMap(proposal.map));
const board = time('compile', () => compileBoard(proposal.map));
collect();
console.log(
  `held by file, map and board: ${megabytes(process.memoryUsage().heapUsed - before)}; most seen: ${megabytes(mostBytes - before)}`,
);
console.log(
  `pads ${file.pads.length}, parts ${proposal.map.parts.length}, nets ${proposal.map.nets.length}, elements ${board.elements.length}`,
);
time('print as 356A', () => value(printIpc(file)));
const rows = pointRowsOfMap(proposal.map);
const table = time('print points as CSV', () => printPointTable(rows));
time('read points from CSV', () => value(readPointTable(table)));
const graph = graphOfBoard(board);
const xml = time('print as GraphML', () => printGraphml(graph));
time('read GraphML', () => value(parseGraphml(xml)));
