/** Words of the report, its two versions and its toolbar. */
export const reportWords = {
  report: 'Report',
  reportMenu: 'Report …',
  reportTools: 'Report tools',
  reportFor: 'For',
  reportAudiences: { colleague: 'a colleague', customer: 'a customer' },
  reportPaper: 'Paper',
  reportPapers: { a4: 'A4', letter: 'Letter' },
  reportPrint: 'Print',
  reportSvg: 'Picture as SVG',
  reportPng: 'Picture as PNG',
  reportClose: 'Close the report',
  reportPictureFailed: 'The picture could not be made.',
  reportPicturePending: 'The picture is being drawn …',
  reportEmpty: 'There is nothing to report yet: the case has no map or no verdict.',

  reportTitle: { colleague: 'Repair report', customer: 'Repair report for you' },
  reportPage: 'Page',
  reportPageOf: 'of',
  reportFacts: {
    product: 'Product',
    case: 'Case',
    date: 'Date',
    meter: 'Meter',
    reference: 'Reference',
    made: 'Made with',
  },
  reportMeter: (title: string, current: string, over: string, share: string, counts: string): string =>
    `${title}: test current ${current}, OL above ${over}, ±(${share} + ${counts})`,
  reportReference: (points: number, boards: number): string =>
    `${points} readings of ${boards === 1 ? '1 known-good board' : `up to ${boards} known-good boards`}; elsewhere the model`,
  reportNoReference: 'no known-good board; expectations come from sister lines and the model',
  reportTaken: (first: string, last: string): string =>
    first === last ? `Readings taken on ${first}.` : `Readings taken from ${first} to ${last}.`,

  reportSymptom: 'Symptom and history',
  reportNoSymptom: 'No symptom was noted.',
  reportNoHistory: 'Nothing is known of its history.',
  reportPicture: 'The line',
  reportPictureOf: (line: string): string => `Line ${line} with its readings`,
  reportPictureFound: 'As found.',
  reportPicturePlanned: 'As found, with the plan drawn in.',
  reportPictureNow: 'With the rework, and the last readings.',
  reportPictureWhy:
    'Each point carries its state as a sign; the halo is as wide as the suspicion is strong. A gap with two strokes is a cut, an arc is a wire with its length.',
  reportReadings: 'Readings against expectations',
  reportReadingColumns: { at: 'Where', seen: 'Seen', expected: 'Expected', because: 'From', state: 'State' },
  reportNoReadings: 'No readings were taken.',

  reportVerdict: { colleague: 'Verdict and evidence', customer: 'What we found' },
  reportLeader: (title: string, share: string): string => `${title}: ${share}.`,
  reportSure: {
    certain: 'All but certain',
    likely: 'Likely',
    open: 'Not settled yet; most likely of several',
  },
  reportAlso: 'Also possible',
  reportNoRivals: 'Nothing else reaches one percent.',
  reportSuspectColumns: { suspect: 'Suspect', share: 'Share', why: 'Why less' },

  reportPlan: {
    chosen: 'Plan chosen',
    proposed: 'Plan proposed',
    customerChosen: 'What was done',
    customerProposed: 'What we propose',
  },
  reportNoPlan: 'There is no plan: ',
  reportFigures: (works: string, minutes: string, risk: string, price: string): string =>
    `Works at the first try in ${works}; ${minutes} minutes; risk worth ${risk} minutes; price ${price}.`,
  reportCustomerFigures: (works: string, minutes: string, price: string): string =>
    `About ${minutes} minutes of work; it works at the first try in ${works} of such cases. Price: ${price}.`,
  reportSteps: 'Steps',
  reportExposure: 'Protection before and after',
  reportExposureColumns: { before: 'Before', after: 'After' },
  reportParts: (names: string): string => `Parts: ${names}.`,
  reportStepsDone: (done: number, total: number): string => `${done} of ${total} steps are done.`,
  reportPrice: 'Price',
  reportRange: 'As long as the fault is not settled the price is a range:',

  reportOthers: { colleague: 'Plans not chosen', customer: 'Other ways, and why not' },
  reportOtherColumns: {
    plan: 'Plan',
    works: 'Works',
    protection: 'Protection',
    minutes: 'Minutes',
    risk: 'Risk, min',
    price: 'Price',
  },
  reportRefused: 'Looked at and refused',
  reportNoOthers: 'No other plan was found.',
  reportOtherWhy: {
    slower: (minutes: number): string => (minutes === 1 ? '1 minute longer' : `${minutes} minutes longer`),
    dearer: (price: string): string => `${price} dearer`,
    riskier: 'more risk to the board',
    lessSure: 'works less often',
    lessProtected: 'leaves less protection',
    partOnly: 'mends only part of what it may be',
    taken: 'the plan above',
    asGood: 'as good on paper; a matter of choice',
  },

  reportStages: 'Readings at each stage',
  reportStageLeftOut: (count: number): string =>
    count === 1 ? '1 reading left out' : `${count} readings left out`,
  reportStagesAhead: 'Not reached yet.',
  reportStageState: {
    passed: 'all as they should be',
    unfinished: 'not all taken',
    slipped: 'not as it should be',
    unexplained: 'not explained',
  },
  reportChecks: 'Function checks',
  reportCautions: 'Cautions',
  reportLimits: { colleague: 'What was not tested, and limits', customer: 'What was not tested' },
  reportLinesUntested: (lines: string): string => `No reading was taken on: ${lines}.`,
  reportUnplaced: (count: number): string =>
    count === 1
      ? '1 reading is on a point the map does not know.'
      : `${count} readings are on points the map does not know.`,
  reportEstimates: 'Shares and expected readings are computed from the map and are estimates.',
};
