/**
 * Why a record was not used, or is doubtful, in words: what was met and what
 * can be done. Kept beside the codes so that every code has its words.
 */
import type { DoubtCode, ListedCode } from './ipc-file.ts';

export interface Wording {
  readonly what: string;
  readonly mend: string;
}

const LISTED: Readonly<Record<ListedCode, Wording>> = {
  'unknown-code': {
    what: 'its first three characters are no code of this format.',
    mend: 'If it should be a test record, correct the code.',
  },
  'empty-record': {
    what: 'it names neither a net nor a part and has no place that can be read.',
    mend: 'Nothing is lost.',
  },
  'line-too-long': {
    what: 'its line is far longer than the 80 columns of the format.',
    mend: 'Check whether a line end is missing.',
  },
  'after-end': {
    what: 'it stands after the 999 record that ends the file.',
    mend: 'Remove the 999 record if more belongs to the board.',
  },
  'nothing-to-continue': {
    what: 'it continues a record, but none of its kind stands before it.',
    mend: 'Check the line before it.',
  },
  'units-again': {
    what: 'it states other units than the header did before.',
    mend: 'The first statement holds; remove the wrong one.',
  },
  'alias-broken': {
    what: 'it defines an alias without a name.',
    mend: 'Write the net name behind the alias.',
  },
  'alias-again': {
    what: 'it gives an alias a second name.',
    mend: 'The first name holds; remove the wrong one.',
  },
  'name-too-long': {
    what: 'its name is longer than 120 characters.',
    mend: 'Shorten the name.',
  },
  'panel-data': {
    what: 'it describes the panel round the boards.',
    mend: 'Nothing is lost for the board.',
  },
  'stepped-image': {
    what: 'it describes a further copy of the board on the panel.',
    mend: 'Nothing is lost for the board.',
  },
  'tester-location': {
    what: 'it says where a test machine puts its probe.',
    mend: 'Nothing is lost for the board.',
  },
  'mask-clearance': {
    what: 'it gives the opening in the solder mask.',
    mend: 'Nothing is lost for the board.',
  },
  'non-test-feature': {
    what: 'it describes a mark, a target or a special test.',
    mend: 'Nothing is lost for the board.',
  },
  'conductor-unreadable': {
    what: 'its drawn line cannot be read.',
    mend: 'The net itself comes from the test records.',
  },
  'adjacency-unreadable': {
    what: 'it names fewer than two nets.',
    mend: 'The nets themselves come from the test records.',
  },
  'measured-unreadable': {
    what: 'its net or value cannot be read.',
    mend: 'Add the value by a parts list.',
  },
  'duplicate-record': {
    what: 'it says word for word what an earlier record says.',
    mend: 'Nothing is lost.',
  },
};

const DOUBTS: Readonly<Record<DoubtCode, Wording>> = {
  'place-missing': {
    what: 'no place was found; net and names were taken.',
    mend: 'The pad cannot be matched by place or shown where it lies.',
  },
  'place-unreadable': {
    what: 'the place could not be read; net and names were taken.',
    mend: 'Expected whole numbers behind X and Y, without a decimal point.',
  },
  'hole-unreadable': {
    what: 'the hole could not be read.',
    mend: 'Expected D and up to four digits.',
  },
  'access-missing': {
    what: 'no side was found.',
    mend: 'The side is taken as not known.',
  },
  'columns-shifted': {
    what: 'the fields begin before their columns.',
    mend: 'They were read where they are; check one or two.',
  },
  'long-designator': {
    what: 'the designator is longer than its columns and pushes the others to the right.',
    mend: 'They were read where they are; check one or two.',
  },
  'long-net': {
    what: 'the net name is longer than its columns.',
    mend: 'It was read to the next blank; check one or two.',
  },
};

/** Why a record was not used. */
export function wordListed(code: ListedCode): Wording {
  return LISTED[code];
}

/** What is doubtful about a record. */
export function wordDoubt(code: DoubtCode): Wording {
  return DOUBTS[code];
}
