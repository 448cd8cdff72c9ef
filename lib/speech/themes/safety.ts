import type { Speech } from "../measure-words"

export const safetySpeech: Speech = {
  "potassium-high-on-ras": {
    headline:
      "{met} {met:person has:people have} a potassium above 5.5 on a RAS blocker or mineralocorticoid antagonist.",
    nobody: {
      when: "met",
      says: "No one on a RAS blocker or mineralocorticoid antagonist has a potassium above 5.5.",
    },
    rateOf: "of the {total} with a result in 12 months",
    met: "above 5.5",
    found: "with a potassium above 5.5 on a RAS blocker or MRA",
    notMet: "at 5.5 or under",
    unknown: "without a result",
    gained: "newly above 5.5",
    lost: "no longer above it",
  },
  "dual-ras-blockade": {
    headline: "{met} {met:person takes:people take} two kinds of RAS blocker at once.",
    nobody: { when: "met", says: "No one takes two kinds of RAS blocker at once." },
    rateOf: "of the {total} on a RAS blocker",
    met: "on two kinds",
    found: "on two kinds of RAS blocker",
    notMet: "on one kind",
    gained: "newly on two",
    lost: "no longer on two",
  },
  "low-pressure-on-drugs": {
    headline:
      "{met} {met:person has:people have} a systolic under {bp.lowSystolic} on blood-pressure drugs: due for a review.",
    nobody: { when: "met", says: "No one on blood-pressure drugs has a systolic under {bp.lowSystolic}." },
    rateOf: "of the {total} measured on a drug",
    met: "below {bp.lowSystolic}",
    found: "with a systolic below {bp.lowSystolic} on drugs",
    notMet: "at {bp.lowSystolic} or above",
    unknown: "not yet measured",
    gained: "newly low",
    lost: "no longer low",
  },
  "abrupt-stop": {
    headline:
      "{met} {met:person:people} stopped a clonidine-like drug or beta blocker with no taper and no reading after.",
    nobody: {
      when: "met",
      says: "No one stopped a clonidine-like drug or beta blocker without a taper or a reading.",
    },
    rateOf: "of the {total} who stopped one in the last 60 days",
    met: "no taper, no reading",
    found: "off a clonidine-like drug or beta blocker with no taper and no reading",
    notMet: "tapered or measured",
    unknown: "too early to say",
    gained: "newly so",
    lost: "no longer so",
  },
}
