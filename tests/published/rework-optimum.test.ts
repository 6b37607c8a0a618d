/**
 * The joint cut-and-jumper optimum against an integer programme, written from
 * the problem alone and solved by HiGHS (Huangfu & Hall 2018, "Parallelizing the
 * dual revised simplex method", Mathematical Programming Computation 10; npm
 * `highs`). The programme knows nothing of our search: every vertex gets a
 * class, edges between classes are cut, and one unit of flow must reach
 * each vertex of a class from its first one, over uncut edges and wires.
 */
import loadHighs from 'highs';
import { expect, test } from 'vitest';
import { solveCutAndJumper } from '../../src/rework/cut-and-jumper.ts';
import { type CutJumperProblem, isSolution } from '../../src/rework/cut-plan.ts';
import { createRandom, seedOf } from '../electrics/random.ts';
import { randomProblem } from '../rework/random-problem.ts';

/** The programme in CPLEX LP format. */
function printProgramme(problem: CutJumperProblem): string {
  const { edges, jumpers, classOf, groupCosts, vertexCount } = problem;
  const classes = [...new Set(classOf.filter((name) => name >= 0))];
  const rows: string[] = [];
  const binaries: string[] = [];
  const bounds: string[] = [];
  const objective: string[] = [];
  const binary = (name: string, cost: number): void => {
    binaries.push(name);
    if (cost > 0) objective.push(`${cost} ${name}`);
  };
  edges.forEach((edge, e) => {
    if (Number.isFinite(edge.cost)) binary(`x${e}`, edge.cost);
    else {
      binary(`x${e}`, 0);
      rows.push(`x${e} = 0`);
    }
    for (const group of edge.groups) rows.push(`g${group} - x${e} >= 0`);
  });
  jumpers.forEach((jumper, j) => {
    binary(`y${j}`, jumper.cost);
    for (const group of jumper.groups) rows.push(`g${group} - y${j} >= 0`);
  });
  groupCosts.forEach((cost, k) => {
    binary(`g${k}`, cost);
  });
  for (const e of problem.insistedCuts) rows.push(`x${e} = 1`);
  for (const pad of problem.insistedPads) {
    const at = jumpers.flatMap(({ a, b }, j) => (a === pad || b === pad ? [`y${j}`] : []));
    rows.push(`${at.join(' + ')} >= 1`);
  }
  for (let v = 0; v < vertexCount; v++) {
    for (const c of classes) binary(`z${v}_${c}`, 0);
    if (classes.length > 0) rows.push(`${classes.map((c) => `z${v}_${c}`).join(' + ')} = 1`);
    if ((classOf[v] as number) >= 0) rows.push(`z${v}_${classOf[v]} = 1`);
  }
  for (const c of classes) {
    edges.forEach(({ a, b }, e) => {
      if (a === b) return;
      rows.push(`x${e} - z${a}_${c} + z${b}_${c} >= 0`, `x${e} + z${a}_${c} - z${b}_${c} >= 0`);
    });
    jumpers.forEach(({ a, b }, j) => {
      if (a === b) return;
      rows.push(`y${j} + z${a}_${c} - z${b}_${c} <= 1`, `y${j} - z${a}_${c} + z${b}_${c} <= 1`);
    });
    const members = classOf.flatMap((name, v) => (name === c ? [v] : []));
    const [root, ...others] = members;
    const units = others.length;
    if (units === 0) continue;
    // The root sends one unit to each other vertex of the class.
    const net = Array.from({ length: vertexCount }, (): string[] => []);
    const flow = (name: string, a: number, b: number, switched: string): void => {
      net[a]?.push(`- ${name}`);
      net[b]?.push(`+ ${name}`);
      rows.push(`${name} ${switched}`, `- ${name} ${switched}`);
      bounds.push(`-${units} <= ${name} <= ${units}`);
    };
    edges.forEach(({ a, b }, e) => {
      if (a !== b) flow(`f${c}_${e}`, a, b, `+ ${units} x${e} <= ${units}`);
    });
    jumpers.forEach(({ a, b }, j) => {
      if (a !== b) flow(`h${c}_${j}`, a, b, `- ${units} y${j} <= 0`);
    });
    net.forEach((terms, v) => {
      const wanted = v === root ? -units : others.includes(v) ? 1 : 0;
      if (terms.length > 0) rows.push(`${terms.join(' ')} = ${wanted}`);
      else if (wanted !== 0) rows.push(`0 ${binaries[0]} = 1`);
    });
  }
  const lines = rows.map((row, i) => ` r${i}: ${row}`);
  return [
    'Minimize',
    ` cost: ${objective.join(' + ') || '0 x0'}`,
    'Subject To',
    ...lines,
    'Bounds',
    ...bounds.map((bound) => ` ${bound}`),
    'Binary',
    ` ${binaries.join(' ')}`,
    'End',
  ].join('\n');
}

/** Boards without a plan that the integer programme is asked about. */
const UNSOLVABLE = 60;

test('[W6] on 300 solvable random boards, and on those without a plan, the search agrees with the integer programme', async () => {
  const highs = await loadHighs();
  const seed = seedOf(300_300);
  const random = createRandom(seed);
  let solvable = 0;
  let withCutsAndWires = 0;
  let mostBranches = 0;
  let boards = 0;
  let unsolvable = 0;
  for (let i = 0; solvable < 300; i++) {
    boards++;
    const problem = randomProblem(random, {
      vertices: 5 + random.below(7),
      loops: random.below(4),
      jumpers: 6 + random.below(12),
      classes: 2 + random.below(2),
    });
    const { plans, limited, branches } = solveCutAndJumper(problem, { count: 1 });
    // Boards without a plan are checked too, but not all of them: they take as long and show less.
    if (plans.length === 0 && ++unsolvable > UNSOLVABLE) continue;
    const solution = highs.solve(printProgramme(problem), { mip_rel_gap: 0, mip_abs_gap: 0 });
    const context = `seed ${seed}, board ${i}`;
    mostBranches = Math.max(mostBranches, branches);
    expect(limited, context).toBe(false);
    if (solution.Status === 'Infeasible') {
      expect(plans, context).toEqual([]);
      continue;
    }
    expect(solution.Status, context).toBe('Optimal');
    solvable++;
    const plan = plans[0];
    expect(plan, context).toBeDefined();
    expect(isSolution(problem, plan?.cuts ?? [], plan?.jumpers ?? []), context).toBe(true);
    expect(plan?.cost, context).toBeCloseTo(solution.ObjectiveValue, 5);
    if ((plan?.cuts.length ?? 0) > 0 && (plan?.jumpers.length ?? 0) > 0) withCutsAndWires++;
  }
  console.log(
    `seed ${seed}: ${solvable} of ${boards} boards solvable, ${withCutsAndWires} with cuts and wires, at most ${mostBranches} branches`,
  );
  expect(withCutsAndWires).toBeGreaterThan(100);
}, 120_000);
