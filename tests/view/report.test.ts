import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileBoard } from '../../src/engine.ts';
import { arrangeLine } from '../../src/view/graph/arrange.ts';
import { createCytoscape } from '../../src/view/graph/cytoscape-chunk.ts';
import { escapeXml, printSvg } from '../../src/view/graph/graph-svg.ts';
import { cssString, paperSheet } from '../../src/view/report/paper.ts';
import { LONGEST_PNG_PIXELS, pngSize } from '../../src/view/report/picture-file.ts';
import { type ReportSource, reportContent } from '../../src/view/report/report-content.ts';
import { pictureSources, printMarks } from '../../src/view/report/report-picture.ts';
import { parseSvg, type SvgTree } from '../../src/view/report/svg-tree.ts';
import { whyNot } from '../../src/view/report/why-not.ts';
import { drawnPlan, marksOf } from '../../src/view/rework/plan-marks.ts';
import { progressOf } from '../../src/view/rework/plan-progress.ts';
import { withStages } from '../../src/view/rework/stage-findings.ts';
import { lineOf, trialInput, trialMap } from './graph-fixture.ts';
import { openTrial } from './rework-case.ts';

const HOSTILE = '<script>alert(1)</script>"&\'';

/** The tree as markup again, the way the printer writes it. */
function print({ name, attributes, children }: SvgTree): string {
  const own = [...attributes].map(([key, value]) => ` ${key}="${escapeXml(value)}"`).join('');
  const inner = children
    .map((child) => (typeof child === 'string' ? escapeXml(child) : print(child)))
    .join('');
  return inner === '' && name !== 'svg' ? `<${name}${own}/>` : `<${name}${own}>${inner}</${name}>`;
}

const withoutNamespace = (svg: string): string => svg.replace(' xmlns="http://www.w3.org/2000/svg"', '');

function drawing(title: string): string {
  const map = trialMap();
  const board = compileBoard({
    ...map,
    decks: map.decks.map((deck) => ({ ...deck, title: `${deck.title} ${title}` })),
  });
  const line = lineOf(board, 'MARK');
  const input = { ...trialInput(), board, line, extraLines: [] };
  const { scene, layout } = arrangeLine(input, { width: 900, height: 600 }, createCytoscape);
  const plan = {
    cuts: [],
    jumpers: [{ from: 'F2.3', to: 'F2.8', lengthMillimetres: 3 }],
  } as unknown as Parameters<typeof drawnPlan>[0];
  const marks = printMarks(marksOf(drawnPlan(plan, board), scene, layout));
  return printSvg(scene, layout, { theme: 'light', title, marks });
}

/** Case 1 with the bypass begun and two of its three steps done. */
function source(): ReportSource {
  const { trial, diagnosis, answer, shown: plans, plan } = openTrial('bypass');
  trial.start(plan, plans);
  trial.step(plan);
  trial.step(plan);
  trial.type('J3.7 0.388');
  const { state, board } = trial;
  if (state.plan === null) throw new Error('no plan under way');
  const progress = progressOf(plan, state.plan, state.readings);
  const shown = withStages(diagnosis, progress, board);
  const times = ['2026-02-03T10:00:00.000Z', '2026-02-01T09:00:00.000Z'];
  return { state, diagnosis, shown, board, answer, plans, plan, progress, times };
}

describe('the report', () => {
  it('[P15] names fault, plan, price, meter, reference and date, and every caution of the trade', () => {
    const content = reportContent(source(), '2026-02-04');
    expect(content.leader?.title).toContain('FL2.3~FL2.6 open');
    expect(content.sure).toBe('All but certain');
    expect(content.plan?.title).toBe('Wire from FL2.3 to FL2.6');
    expect(content.meter).toBe('Ordinary handheld, 1 mA: test current 1 mA, OL above 2 V, ±(0.5 % + 2 mV)');
    expect(content.reference).toContain('3 known-good boards');
    expect(content.taken).toBe('Readings taken from 2026-02-01 to 2026-02-03.');
    const cautions = content.cautions.join(' ');
    for (const word of ['cell', 'Hot air', 'fumes', 'UV', 'wrist strap', 'licensed'])
      expect(cautions).toContain(word);
    expect(new Set(content.cautions).size).toBe(content.cautions.length);
  });

  it('[P15] says which lines nobody measured and which stage readings were left out', () => {
    const { limits } = reportContent(source(), '2026-02-04');
    const text = limits.join(' ');
    expect(text).toMatch(/No reading was taken on: [^.]*\bSCAN\b[^.]*\./);
    expect(text).not.toMatch(/No reading was taken on: [^.]*\bMARK\b/);
    expect(text).toContain('Wire from FL2.3 to FL2.6 in: 4 readings left out.');
  });

  it('[P15] every plan not chosen has its reason, taken from the figures', () => {
    const { plans, plan } = source();
    if (plans === null || plan === null) throw new Error('no plans');
    const replace = plans.plans.find(({ kind }) => kind === 'replace');
    const off = plans.plans.find(({ title }) => title.includes('off and wire over'));
    if (replace === undefined || off === undefined) throw new Error('no rivals');
    expect(whyNot(replace, plan)).toContain('dearer');
    expect(whyNot(plan, replace)).toContain('leaves less protection');
    expect(whyNot(off, plan)).toContain('leaves less protection');
    expect(whyNot(plan, plan)).toContain('as good');
  });

  it('[P15] shows the line as found and, where the plan draws anything, the line it works on with the plan in it', () => {
    const begun = source();
    const [found, now] = pictureSources(begun);
    expect(found?.diagnosis).toBe(begun.diagnosis);
    expect(found?.plan).toBeNull();
    expect(now?.diagnosis).toBe(begun.shown);
    expect(now?.plan?.wires.length).toBe(1);
    const [, proposed] = pictureSources({ ...begun, progress: null });
    expect(proposed?.plan?.wires.length).toBe(1);
    expect(proposed?.line).toBe('MARK');
    expect(pictureSources({ ...begun, plan: null, progress: null }).length).toBe(1);
  });
});

describe('the picture in the page', () => {
  it('[P16] reads back every mark the printer writes', () => {
    const svg = drawing('Line MARK');
    const tree = parseSvg(svg);
    expect(tree).not.toBeNull();
    expect(tree === null ? '' : print(tree)).toBe(withoutNamespace(svg));
    expect(svg).toContain('wire 3 mm');
  });

  it('[P16] a hostile name stays text', () => {
    const tree = parseSvg(drawing(HOSTILE));
    const texts: string[] = [];
    const names = new Set<string>();
    const walk = (node: SvgTree | string): void => {
      if (typeof node === 'string') texts.push(node);
      else {
        names.add(node.name);
        node.children.forEach(walk);
      }
    };
    if (tree !== null) walk(tree);
    expect(texts).toContain(HOSTILE);
    expect([...names].sort()).toEqual(['desc', 'g', 'path', 'rect', 'svg', 'text', 'title']);
  });

  it('[P16] elements and attributes the printer does not write are left out; broken markup is refused', () => {
    const tree = parseSvg(
      '<svg onload="x()"><script>1</script><g href="javascript:1" fill="red"><a>t</a></g></svg>',
    );
    expect(tree === null ? '' : print(tree)).toBe('<svg><g fill="red"/></svg>');
    for (const text of ['', 'x', '<svg>', '<svg></g></svg>', '<svg></svg><svg></svg>', '</svg>'])
      expect(parseSvg(text)).toBeNull();
  });

  it('[P17] a PNG is twice the drawing, and no side is longer than 4000 px', () => {
    expect(pngSize(700, 430)).toEqual({ width: 1400, height: 860 });
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 1e6, noNaN: true }),
        fc.double({ min: 1, max: 1e6, noNaN: true }),
        (width, height) => {
          const size = pngSize(width, height);
          expect(Math.max(size.width, size.height)).toBeLessThanOrEqual(LONGEST_PNG_PIXELS);
          expect(Math.min(size.width, size.height)).toBeGreaterThanOrEqual(1);
        },
      ),
      { seed: 17 },
    );
  });
});

describe('the paper', () => {
  it('[P18] a title can never end its string in the style sheet', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const quoted = cssString(text);
        expect(quoted.slice(1, -1)).not.toMatch(/["<>{}\n\r\f]/);
        // CSS Syntax Module Level 3, 4.3.7: an escape is a backslash, up to six hex digits, one blank.
        const read = quoted
          .slice(1, -1)
          .replace(/\\([0-9a-f]{1,6}) /g, (_, hex: string) => String.fromCodePoint(Number.parseInt(hex, 16)));
        expect(read).toBe(text);
      }),
      { seed: 18, examples: [['"; } body { display: none } "'], ['\\'], ['</style>']] },
    );
  });

  it('[P18] both papers name size, margins and page numbers', () => {
    expect(paperSheet('a4', 'x', 'Page', 'of')).toMatch(/size: A4 portrait/);
    expect(paperSheet('letter', 'x', 'Page', 'of')).toMatch(
      /size: letter portrait[\s\S]*counter\(page\)[\s\S]*counter\(pages\)/,
    );
  });
});
