// What this tool does not see, said beside every result: a prediction that is taken for a measurement hurts.

export const cautions: readonly string[] = [
  'predicted from the text and a delay set: placement, wires, load, supply voltage, temperature and the spread between two parts are not seen',
  "before anything is built on it, sign-off timing analysis, measurement and the maker's data decide",
];
