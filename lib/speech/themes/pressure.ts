import type { Speech } from "../measure-words"

export const pressureSpeech: Speech = {
  "bp-at-target": {
    headline: "{met} of {total} {total:person:people} with CKD {met:has:have} their pressure at target.",
    met: "at target",
    notMet: "above target",
    gained: "newly at target",
    lost: "slipped above it",
  },
  "bp-under-140-90": {
    headline:
      "{met} of {total} {total:person:people} with long-standing hypertension {met:was:were} under 140/90 when last measured.",
    met: "under 140/90",
    notMet: "at 140/90 or above",
    gained: "newly under 140/90",
    lost: "no longer under it",
  },
  "pressure-measured": {
    headline: "{met} of {total} {total:person:people} with CKD {met:has:have} a usable pressure.",
    met: "measured",
    notMet: "not measured",
    gained: "newly measured",
    lost: "fell out of the window",
    notMetLook: "hatched",
  },
  "plan-when-high": {
    headline:
      "For {met} of {total} {total:person:people} above target for three months, a drug was started or raised, or a decision recorded.",
    met: "with a plan",
    notMet: "nothing decided",
    gained: "newly with a plan",
    lost: "no longer with one",
  },
  "uncontrolled-on-several-classes": {
    headline: "{met} {met:person is:people are} above target on {drugs.several} or more drug classes.",
    nobody: { when: "met", says: "No one is above target on {drugs.several} or more drug classes." },
    rateOf: "of the {total} measured on {drugs.several} or more",
    met: "above target",
    notMet: "at target",
    unknown: "not yet measured",
    gained: "newly above target",
    lost: "no longer above it",
  },
  "untreated-above-target": {
    headline: "{met} {met:person is:people are} above target and {met:takes:take} no blood-pressure drug.",
    nobody: { when: "met", says: "No one above target goes without a blood-pressure drug." },
    rateOf: "of the {total} with CKD and a pressure",
    met: "above target, on no drug",
    notMet: "at target or on a drug",
    gained: "newly above target on no drug",
    lost: "no longer so",
  },
  "home-monitoring": {
    headline:
      "{met} of {total} {total:person:people} with hypertension {met:has:have} a valid home average of the last 12 months.",
    met: "measuring at home",
    notMet: "no home average",
    gained: "newly measuring at home",
    lost: "fell out of the window",
    notMetLook: "hatched",
  },
}
