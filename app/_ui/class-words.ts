/** Drug classes and kinds as a clinician reads them, by the word the definitions give each. */
const words: Readonly<Record<string, string>> = {
  ras_blocker: "RAS blocker",
  calcium_channel_blocker: "calcium channel blocker",
  diuretic: "diuretic",
  mineralocorticoid_antagonist: "mineralocorticoid antagonist",
  beta_blocker: "beta blocker",
  alpha1_blocker: "alpha-1 blocker",
  central_agonist: "central agonist",
  vasodilator: "vasodilator",
  other: "other pressure drug",
  ace_inhibitor: "ACE inhibitor",
  arb: "ARB",
  direct_renin_inhibitor: "direct renin inhibitor",
  thiazide: "thiazide-type diuretic",
  thiazide_like: "thiazide-like diuretic",
  loop: "loop diuretic",
  loop_diuretic: "loop diuretic",
  steroidal_mra: "steroidal mineralocorticoid antagonist",
  sglt2_inhibitor: "SGLT2 inhibitor",
}

/** A class or kind in words; one without words of its own is its word with blanks. */
export function classWords(name: string): string {
  return words[name] ?? name.replaceAll("_", " ")
}
