/**
 * What is to be confirmed or filled in about a proposed map, one notice per
 * kind. The lists themselves stand in the proposal.
 */
import type { Problem } from '../../board/result.ts';
import type { PartGuess, Proposal, SupplyGuess } from './propose-types.ts';

export const PROPOSE_NOTICES = [
  'supplies-guessed',
  'ground-missing',
  'grounds-joined',
  'rail-volts-missing',
  'value-missing',
  'pairing-guessed',
  'kind-unknown',
  'controller-guessed',
  'nets-renamed',
  'pads-left-out',
  'too-many-neighbours',
] as const;
type ProposeNotice = (typeof PROPOSE_NOTICES)[number];

const EXAMPLES = 5;

/** Builds the notices, most weighty first. */
export function noticesOfProposal(proposal: Proposal, tooManyNeighbours: boolean): Problem[] {
  const notices: Problem[] = [];
  const add = (code: ProposeNotice, what: string, mend: string): void => {
    notices.push({ code, where: {}, what, mend });
  };
  const { supplies, parts } = proposal;
  const grounds = supplies.filter(({ role }) => role === 'ground');
  const rails = supplies.filter(({ role }) => role === 'rail');
  if (grounds.length === 0) {
    add(
      'ground-missing',
      'No net was taken for ground.',
      'Choose the ground net; without it no part is a shunt.',
    );
  } else {
    const rest = rails.length === 0 ? 'No rail was recognised' : `Rails: ${names(rails)}`;
    add('supplies-guessed', `Ground: ${names(grounds)}. ${rest}.`, 'Confirm each, or change its role.');
  }
  if (grounds.length > 1) {
    const mend = 'If they are apart on this board, make all but one of them a rail of 0 V.';
    add('grounds-joined', `${names(grounds)} are taken as one ground.`, mend);
  }
  addCount(
    add,
    'rail-volts-missing',
    rails.filter(({ supplyVolts }) => supplyVolts === null).map(({ net }) => net),
    'rail has no voltage in its name and was given 0 V',
    'rails have no voltage in their name and were given 0 V',
    'Write what they carry.',
  );
  addParts(
    add,
    'value-missing',
    parts.filter(({ valueMissing }) => valueMissing),
    'has no value; a usual one stands in',
    'have no value; usual ones stand in',
    'Paste a parts list with designator and value.',
  );
  addParts(
    add,
    'pairing-guessed',
    parts.filter(({ pairingGuessed }) => pairingGuessed),
    'had its pins paired by rule',
    'had their pins paired by rule',
    'Check the pairs, or write a rule for these parts.',
  );
  addParts(
    add,
    'kind-unknown',
    parts.filter(({ because }) => because === 'nothing known' || because === 'pin count'),
    'has a kind that its designator does not tell',
    'have kinds that their designators do not tell',
    'Choose the kind where it matters.',
  );
  const controller = parts.find(({ because }) => because === 'largest chip');
  if (controller !== undefined) {
    add(
      'controller-guessed',
      `${controller.id} has the most pins and was taken for the controller.`,
      'Choose another if the lines end elsewhere.',
    );
  }
  addCount(
    add,
    'nets-renamed',
    proposal.renamedNets.map(({ id }) => id),
    'net was renamed so that it is not taken for a point',
    'nets were renamed so that they are not taken for points',
    'They can be renamed again.',
  );
  const left = proposal.leftOut.length;
  if (left > 0) {
    const what = `${left} ${left === 1 ? 'pad is' : 'pads are'} no point of the map (${reasons(proposal)}).`;
    add('pads-left-out', what, 'The list gives the reason for each.');
  }
  if (tooManyNeighbours) {
    add(
      'too-many-neighbours',
      'The distance gives more neighbours than can be used; none were taken.',
      'Choose a smaller distance.',
    );
  }
  return notices;
}

type Add = (code: ProposeNotice, what: string, mend: string) => void;

function addParts(
  add: Add,
  code: ProposeNotice,
  parts: readonly PartGuess[],
  one: string,
  many: string,
  mend: string,
): void {
  addCount(
    add,
    code,
    parts.map(({ id }) => id),
    `part ${one}`,
    `parts ${many}`,
    mend,
  );
}

function addCount(
  add: Add,
  code: ProposeNotice,
  ids: readonly string[],
  one: string,
  many: string,
  mend: string,
): void {
  if (ids.length === 0) return;
  add(code, `${ids.length} ${ids.length === 1 ? one : many}: ${few(ids)}.`, mend);
}

function names(supplies: readonly SupplyGuess[]): string {
  return few(supplies.map(({ net }) => net));
}

function few(ids: readonly string[]): string {
  const shown = ids
    .slice(0, EXAMPLES)
    .map((id) => `\`${id}\``)
    .join(', ');
  return ids.length <= EXAMPLES ? shown : `${shown} and ${ids.length - EXAMPLES} more`;
}

function reasons({ leftOut }: Proposal): string {
  const counts = new Map<string, number>();
  for (const { code } of leftOut) counts.set(code, (counts.get(code) ?? 0) + 1);
  return [...counts].map(([code, count]) => `${count} ${code.replaceAll('-', ' ')}`).join(', ');
}
