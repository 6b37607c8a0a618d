/**
 * From pads to a proposed map: recognising by table (invented parts of the
 * Plover HR-2; what is taken for what is common practice, no source, except
 * the class letters, see tests/published), and laws on random files.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boardMapSchema, type Channel } from '../../src/board/board-map.ts';
import { checkMap } from '../../src/board/check-map.ts';
import { compileBoard } from '../../src/board/compile.ts';
import { comparePins, pairPins } from '../../src/exchange/ipc/array-rules.ts';
import { voltsOfName } from '../../src/exchange/ipc/find-supplies.ts';
import type { IpcPad } from '../../src/exchange/ipc/ipc-file.ts';
import { plainRequest, proposeMap } from '../../src/exchange/ipc/propose.ts';
import type { Proposal, ProposeRequest } from '../../src/exchange/ipc/propose-types.ts';
import { readIpc } from '../../src/exchange/ipc/read-ipc.ts';
import { expectLinear } from './growth.ts';
import { generateIpcFile, ipcText, padRecord } from './ipc-files.ts';

const seed = Number(process.env.SEED ?? 357);
const fuzzCount = Number(process.env.FUZZ_COUNT ?? 200);
console.info(`ipc-propose: SEED=${seed} FUZZ_COUNT=${fuzzCount}`);

/** Pads from lines `net part pin`, a millimetre apart. */
function padsOf(...rows: readonly string[]): readonly IpcPad[] {
  const lines = rows.map((row, i) => {
    const [net = '', part = '', pin = ''] = row.split(' ');
    const x = String(i * 1000).padStart(6, '0');
    return padRecord('327', net === '-' ? '' : net, part, pin, `      A01X+${x}Y+000000X0300Y0300R000 S0`);
  });
  const result = readIpc(['P  UNITS CUST 1', ...lines, '999'].join('\n'));
  if (!result.ok) throw new Error('not read');
  return result.value.pads;
}

function propose(pads: readonly IpcPad[], more: Partial<ProposeRequest> = {}): Proposal {
  const result = proposeMap({ ...plainRequest(pads, 'radio', 'Radio deck'), ...more });
  if (!result.ok) throw new Error('not proposed');
  return result.value;
}

const channelsOf = ({ map }: Proposal, id: string): readonly Channel[] =>
  map.parts.find((part) => part.id === id)?.channels ?? [];
const printed = (channels: readonly Channel[]): string[] =>
  channels.map(({ kind, from, to }) => `${kind} ${from}~${to}`);

describe('proposing a map', () => {
  it('[X10] a two-pin part between signals is series, to ground or to a rail a shunt', () => {
    const proposal = propose(
      padsOf(
        'MARK R1 1',
        'MARK_2 R1 2',
        'MARK_2 C1 1',
        'GND C1 2',
        'VDD_1V8 R2 1',
        'MARK R2 2',
        'VDD_1V8 C2 1',
        'GND C2 2',
        'VDD_1V8 FB1 1',
        '+3V3 FB1 2',
        'MARK C3 1',
        'MARK C3 2',
        'MARK SW1 1',
        'GND SW1 2',
      ),
      {
        facts: [
          { part: 'R1', value: '47R 1%' },
          { part: 'C2', value: '100nF/16V' },
          { part: 'R2', value: '4k7' },
        ],
      },
    );
    expect(printed(channelsOf(proposal, 'R1'))).toEqual(['resistance R1.1~R1.2']);
    expect(channelsOf(proposal, 'R1')[0]).toMatchObject({ ohms: 47 });
    expect(printed(channelsOf(proposal, 'C1'))).toEqual(['capacitor C1.1~ground']);
    expect(printed(channelsOf(proposal, 'R2'))).toEqual(['resistance R2.2~VDD_1V8']);
    expect(channelsOf(proposal, 'R2')[0]).toMatchObject({ ohms: 4700 });
    expect(channelsOf(proposal, 'C2')[0]).toMatchObject({ to: 'ground', farads: 1e-7 });
    // Between two rails: series, so that each rail keeps its end.
    expect(printed(channelsOf(proposal, 'FB1'))).toEqual(['resistance FB1.1~FB1.2']);
    // Both ends on one net: nothing to see. A key to ground is open until pressed.
    expect(channelsOf(proposal, 'C3')).toEqual([]);
    expect(channelsOf(proposal, 'SW1')).toEqual([]);
    expect(proposal.parts.filter(({ valueMissing }) => valueMissing).map(({ id }) => id)).toEqual(['C1']);
    expect(proposal.map.rails).toEqual([
      { id: 'VDD_1V8', supplyVolts: 1.8 },
      { id: '+3V3', supplyVolts: 3.3 },
    ]);
    expect(checkMap(proposal.map)).toEqual([]);
  });

  it('[X10] a junction conducts from anode to cathode, whichever end is ground', () => {
    const proposal = propose(
      padsOf(
        'LINE_A D1 K',
        'GND D1 A',
        'GND D2 K',
        'LINE_B D2 A',
        'LINE_C D3 1',
        'GND D3 2',
        'LINE_D LED1 A',
        'GND LED1 C',
        'GND VR1 1',
        'LINE_E VR1 2',
      ),
    );
    expect(printed(channelsOf(proposal, 'D1'))).toEqual(['junction D1.K~ground']);
    // Cathode on ground: a channel cannot begin at ground, so both pins stay points.
    expect(printed(channelsOf(proposal, 'D2'))).toEqual(['junction D2.K~D2.A']);
    expect(printed(channelsOf(proposal, 'D3'))).toEqual(['junction D3.1~ground']);
    expect(printed(channelsOf(proposal, 'LED1'))).toEqual(['junction LED1.C~LED1.A']);
    expect(channelsOf(proposal, 'LED1')[0]).toMatchObject({ junction: { dropVolts: 1.8 } });
    // A suppressor guards its line whichever way it is numbered.
    expect(printed(channelsOf(proposal, 'VR1'))).toEqual(['junction VR1.2~ground']);
    expect(checkMap(proposal.map)).toEqual([]);
  });

  it("[X11] pins of arrays pair by rule, the user's rule first", () => {
    const pads = padsOf(
      ...[1, 2, 3, 4, 5, 6, 7, 8].map((pin) => `N${pin} RN1 ${pin}`),
      ...[1, 2, 3, 4].map((pin) => `A${pin} FL1 ${pin}`),
      'GND FL1 5',
      'B1 D1 1',
      'B2 D1 2',
      'GND D1 3',
    );
    const standard = propose(pads);
    expect(printed(channelsOf(standard, 'RN1'))).toEqual([
      'resistance RN1.1~RN1.8',
      'resistance RN1.2~RN1.7',
      'resistance RN1.3~RN1.6',
      'resistance RN1.4~RN1.5',
    ]);
    expect(printed(channelsOf(standard, 'FL1'))).toEqual([
      'resistance FL1.1~FL1.4',
      'junction FL1.4~ground',
      'resistance FL1.2~FL1.3',
      'junction FL1.3~ground',
    ]);
    expect(printed(channelsOf(standard, 'D1'))).toEqual(['junction D1.1~ground', 'junction D1.2~ground']);
    const rules: ProposeRequest['arrayRules'] = [
      {
        parts: ['RN1'],
        pinCount: null,
        pairing: [
          ['1', '5'],
          ['5', '1'],
          ['2', '9'],
        ],
        sectionOhms: 22,
        clamped: false,
      },
      { parts: ['FL'], pinCount: 4, pairing: 'along', sectionOhms: 10, clamped: false },
      { parts: ['D'], pinCount: null, pairing: 'none', sectionOhms: 0, clamped: false },
    ];
    const told = propose(pads, { arrayRules: rules });
    expect(channelsOf(told, 'RN1')).toEqual([{ kind: 'resistance', from: 'RN1.1', to: 'RN1.5', ohms: 22 }]);
    expect(printed(channelsOf(told, 'FL1'))).toEqual(['resistance FL1.1~FL1.2', 'resistance FL1.3~FL1.4']);
    expect(channelsOf(told, 'D1')).toEqual([]);
    for (const { map } of [standard, told]) expect(checkMap(map)).toEqual([]);
    const pins = ['10', '2', '1', '9'];
    const rule = { parts: [], pinCount: null, sectionOhms: 1, clamped: false } as const;
    expect(pairPins({ ...rule, pairing: 'across' }, pins)).toEqual([
      ['1', '10'],
      ['2', '9'],
    ]);
    expect(pairPins({ ...rule, pairing: 'half-way' }, pins)).toEqual([
      ['1', '9'],
      ['2', '10'],
    ]);
    expect(['B1', 'A10', 'A2', '10', '9'].sort(comparePins)).toEqual(['9', '10', 'A2', 'A10', 'B1']);
  });

  it('[X12] ground and rails are found by name and by size, listed, and yield to the user', () => {
    const many = Array.from({ length: 14 }, (_, i) => `N$1 U1 ${i + 1}`);
    const caps = Array.from({ length: 4 }, (_, i) => [`N$2 C${i} 1`, `N$1 C${i} 2`]).flat();
    const bySize = propose(padsOf(...many, ...caps, 'X R1 1', 'Y R1 2'));
    expect(bySize.supplies).toEqual([
      { net: 'N$1', role: 'ground', supplyVolts: null, pads: 18, capacitors: 0, because: ['size'] },
      { net: 'N$2', role: 'rail', supplyVolts: null, pads: 4, capacitors: 4, because: ['size'] },
    ]);
    const names = [
      'GND',
      'AGND',
      'GND_RF',
      'VSS',
      '/DGND',
      'VDD_1V8',
      '+3V3',
      '5V',
      'VBAT',
      'VBUS',
      '/+1.1V',
      'VCC',
      'NC',
      'SENSE_3V3_EN',
      'MARK',
      'V_SYNC',
      'GNDET_KEY',
    ];
    const byName = propose(padsOf(...names.flatMap((net) => [`${net} J1 1`, `${net} J2 1`])));
    const roles = new Map(byName.supplies.map(({ net, role }) => [net, role]));
    expect(names.map((net) => `${net} ${roles.get(net) ?? 'signal'}`)).toEqual([
      'GND ground',
      'AGND ground',
      'GND_RF ground',
      'VSS ground',
      '/DGND ground',
      'VDD_1V8 rail',
      '+3V3 rail',
      '5V rail',
      'VBAT rail',
      'VBUS rail',
      '/+1.1V rail',
      'VCC rail',
      'NC unconnected',
      'SENSE_3V3_EN signal',
      'MARK signal',
      'V_SYNC signal',
      'GNDET_KEY signal',
    ]);
    expect(['VDD_1V8', '+3V3', '5V', '/+1.1V', '3.3VA', 'VBUS', 'VCC'].map(voltsOfName)).toEqual([
      1.8,
      3.3,
      5,
      1.1,
      3.3,
      5,
      null,
    ]);
    const told = propose(padsOf('GND R1 1', 'MARK R1 2', 'GND U1 1', 'MARK U1 2'), {
      supplies: [
        { net: 'GND', role: 'rail', supplyVolts: -1.2 },
        { net: 'MARK', role: 'ground' },
      ],
    });
    expect(told.map.rails).toEqual([{ id: 'GND', supplyVolts: -1.2 }]);
    expect(told.supplies.every(({ because }) => because.includes('told'))).toBe(true);
    expect(checkMap(told.map)).toEqual([]);
  });

  it('[X5] a designator that was cut is taken apart where the file starts the part anew', () => {
    const apart = propose(padsOf('A RES101 1', 'B RES101 2', 'X U1 1', 'C RES101 1', 'D RES101 2'));
    expect(apart.map.parts.map(({ id }) => id)).toEqual(['RES101', 'RES101/2', 'U1']);
    expect(apart.pointOfPad).toEqual(['RES101.1', 'RES101.2', 'U1.1', 'RES101/2.1', 'RES101/2.2']);
    // Sorted by net, nothing tells the parts apart: points stay, channels do not.
    const mixed = propose(
      padsOf('A RES101 1', 'B RES101 1', 'C RES101 2', 'C RES101 2', 'D RES101 2', 'D RES101 1'),
    );
    expect(new Set(mixed.pointOfPad).size).toBe(6);
    const runs = mixed.map.parts.filter(({ id }) => id.startsWith('RES101'));
    expect(runs.length).toBeGreaterThanOrEqual(1);
    expect(checkMap(mixed.map)).toEqual([]);
  });

  it('[X5] names for unconnected pads that were cut alike join nothing', () => {
    const proposal = propose(
      padsOf('-PIN_12-PAD12) J1 12', '-PIN_12-PAD12) J3 12', 'T-(IC6-USB_DM) IC6 46', 'T-(IC6-USB_DM) R11 2'),
    );
    expect(proposal.map.nets.map(({ id, points }) => `${id}: ${points.join(' ')}`)).toEqual([
      'T-(IC6-USB_DM): IC6.46 R11.2',
    ]);
  });

  it('[X13] names that could be taken for points are told apart', () => {
    const proposal = propose(
      padsOf(
        'U1.3 U1 3',
        'U1.3 R1 1',
        'TP7 TP7 1',
        'TP7 R1 2',
        'A@radio U1 4',
        'A@radio R2 1',
        'ground U1.A 1',
        'ground R2 2',
      ),
      { supplies: [{ net: 'ground', role: 'signal' }] },
    );
    expect(proposal.renamedNets).toEqual([
      { net: 'U1.3', id: 'net/U1.3' },
      { net: 'A@radio', id: 'net/A@radio' },
      { net: 'ground', id: 'ground/2' },
    ]);
    expect(proposal.map.parts.map(({ id }) => id)).toContain('U1_A');
    expect(checkMap(proposal.map)).toEqual([]);
  });

  it('[X13] vias: those one can touch, all, or none', () => {
    const lines = [
      'P  UNITS CUST 1',
      padRecord('317', 'GND', 'VIA', '', 'D0200PA00X+000000Y+000000X0300Y0000R000 S0'),
      padRecord('317', 'MARK', 'VIA', '', 'D0200PA00X+001000Y+000000X0300Y0000R000 S0'),
      padRecord('317', 'MARK', 'VIA', '', 'D0200PA00X+002000Y+000000X0300Y0000R000 S3'),
      padRecord('327', 'MARK', 'R1', '1', '      A01X+003000Y+000000X0300Y0300R000 S0'),
      padRecord('327', 'GND', 'U1', '1', '      A01X+004000Y+000000X0300Y0300R000 S0'),
    ];
    const result = readIpc(lines.join('\n'));
    if (!result.ok) throw new Error('not read');
    const left = (vias: ProposeRequest['vias']): string[] =>
      propose(result.value.pads, { vias }).leftOut.map(({ pad, code }) => `${pad} ${code}`);
    expect(left('bare')).toEqual(['0 ground-via', '2 via-masked']);
    expect(left('all')).toEqual([]);
    expect(left('none')).toEqual(['0 via-not-wanted', '1 via-not-wanted', '2 via-not-wanted']);
  });

  it('[X13] neighbours: pads of different nets on one side, within the distance', () => {
    const proposal = propose(padsOf('A J1 1', 'B J1 2', 'B J1 3', '- J1 4', '- J1 5', 'C J1 6'), {
      nearMillimetres: 1,
    });
    expect(proposal.map.neighbours).toEqual([
      { a: 'J1.1', b: 'J1.2', gapMillimetres: 1 },
      { a: 'J1.3', b: 'J1.4', gapMillimetres: 1 },
      { a: 'J1.4', b: 'J1.5', gapMillimetres: 1 },
      { a: 'J1.5', b: 'J1.6', gapMillimetres: 1 },
    ]);
  });

  it('[X13] a part that is not fitted has no channel; the largest chip is the controller unless told', () => {
    const pads = padsOf(
      'A R1 1',
      'B R1 2',
      ...Array.from({ length: 20 }, (_, i) => `N${i} U2 A${i + 1}`),
      'A U3 1',
    );
    const proposal = propose(pads, { facts: [{ part: 'R1', value: 'DNP' }] });
    expect(proposal.parts.map(({ id, kind, shape }) => `${id} ${kind} ${shape}`)).toEqual([
      'R1 resistor not-fitted',
      'U2 controller none',
      'U3 chip none',
    ]);
    expect(proposal.map.parts.map(({ ballGrid }) => ballGrid)).toEqual([false, true, false]);
    const told = propose(pads, { facts: [{ part: 'U3', kind: 'controller' }] });
    expect(told.parts.map(({ kind }) => kind)).toEqual(['resistor', 'chip', 'controller']);
  });

  it('[X14] every proposed map fits its schema, passes the check and compiles; every pad is accounted for', () => {
    fc.assert(
      fc.property(
        ipcText,
        fc.constantFrom('bare', 'all', 'none'),
        fc.constantFrom(0, 2),
        (text, vias, nearMillimetres) => {
          const result = readIpc(text);
          if (!result.ok) return;
          const { pads } = result.value;
          const proposal = propose(pads, { vias, nearMillimetres });
          expect(boardMapSchema.safeParse(proposal.map).error).toBeUndefined();
          expect(checkMap(proposal.map)).toEqual([]);
          compileBoard(proposal.map);
          const left = new Set(proposal.leftOut.map(({ pad }) => pad));
          expect(left.size).toBe(proposal.leftOut.length);
          pads.forEach((_, i) => {
            expect(left.has(i)).toBe(proposal.pointOfPad[i] === null);
          });
          const points = proposal.pointOfPad.filter((point) => point !== null);
          expect(new Set(points).size).toBe(points.length);
          // Points of one net come from pads of one net (ground: of several), and none is lost.
          const netOf = new Map(proposal.pointOfPad.map((point, i) => [point, pads[i]?.net]));
          for (const { id, points: joined } of proposal.map.nets) {
            if (id !== 'ground') expect(new Set(joined.map((point) => netOf.get(point))).size).toBe(1);
          }
        },
      ),
      { seed, numRuns: fuzzCount },
    );
  });

  it('[X9] twice the pads cost at most 2.5 times the work', () => {
    expectLinear('propose', 2500, (count) => {
      const result = readIpc(generateIpcFile(seed, count));
      if (!result.ok) throw new Error('not read');
      const request = plainRequest(result.value.pads, 'radio', 'Radio deck');
      return () => proposeMap(request);
    });
  });
});
