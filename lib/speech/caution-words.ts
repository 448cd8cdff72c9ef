import { day, lab } from "./format"
import { takenWords } from "./pressure-place"

/** A caution in two: what leads, which a screen sets bold and which may be nothing, and what follows it. */
export type CautionWords = { lead: string; rest: string }

/** A caution about one person with the fact behind it. */
export type CautionFact = {
  caution: CautionName
  word: string | null
  number: number | null
  comparator: string | null
  day: string | null
}

export type CautionName = keyof typeof words

/** What a caution says: the facts, never what to do. */
export function cautionWords(fact: CautionFact): CautionWords {
  return words[fact.caution](fact)
}

/** The same as one sentence. */
export function cautionSentence(fact: CautionFact): string {
  const { lead, rest } = cautionWords(fact)
  return `${lead}${rest}`
}

const words = {
  "severe pressure": (fact: CautionFact) => ({
    lead: `Pressure severe${takenWords(fact.word)}${on(fact)}.`,
    rest: "",
  }),
  "high potassium": (fact: CautionFact) => ({ lead: `Potassium ${potassium(fact)}${on(fact)}.`, rest: "" }),
  "ras-blocker-in-pregnancy-or-angioedema": (fact: CautionFact) => ({
    lead: "ACE inhibitor, ARB or renin inhibitor in a pregnancy or after angioedema:",
    rest: ` ${fact.word}.`,
  }),
  "potassium-high-on-drug": (fact: CautionFact) => ({
    lead: `Potassium ${potassium(fact)}${on(fact)}`,
    rest: ", on a drug that raises it.",
  }),
  "creatinine-rise-after-start": (fact: CautionFact) => ({
    lead: "Creatinine up by more than 30% since an ACE inhibitor or ARB was started:",
    rest: ` ${fact.word}${on(fact)}.`,
  }),
  "stopped-without-taper": (fact: CautionFact) => ({
    lead: `Stopped without taper${on(fact)}:`,
    rest: ` ${fact.word}. It may have run out.`,
  }),
  "interfering-drug": (fact: CautionFact) => ({
    lead: "Pressure above target with a drug that may raise it:",
    rest: ` ${fact.word}.`,
  }),
  "potassium in the diet": () => ({
    lead: "",
    rest: "Potassium in the diet may need a limit: the serum potassium says so.",
  }),
  "two-ras-blockers": (fact: CautionFact) => ({
    lead: "Two kinds of RAS blocker active at once:",
    rest: ` ${fact.word}. A short overlap may be a switch.`,
  }),
  "pressure-low-on-drugs": (fact: CautionFact) => ({
    lead: `Systolic ${fact.number}${takenWords(fact.word)}${on(fact)}`,
    rest: ", on drugs that lower pressure.",
  }),
  "stopped with albuminuria": (fact: CautionFact) => ({
    lead: `Protein in the urine confirmed, and ACE inhibitor or ARB stopped${on(fact)}.`,
    rest: ` ${fact.word}.`,
  }),
  "unread drug": (fact: CautionFact) => ({
    lead: "Drug text not fully read:",
    rest: ` ${fact.word}. It may count for no class; Imports maps it.`,
  }),
  "newer haemolysed": (fact: CautionFact) => ({
    lead: "",
    rest: `A newer potassium, ${potassium(fact)}${on(fact)}, was haemolysed and is not used.`,
  }),
  "raised once": (fact: CautionFact) => ({
    lead: "",
    rest: `Urine albumin raised${on(fact)}, not yet confirmed by a second result 90 days apart.`,
  }),
  "single reading": (fact: CautionFact) => ({
    lead: "",
    rest: `The office pressure${on(fact)} is a single reading.`,
  }),
  "sex unknown": () => ({
    lead: "",
    rest: "Sex at birth is not recorded: eGFR is taken from the laboratory only.",
  }),
  merged: () => ({
    lead: "",
    rest: "Several records of this person are merged; each fact keeps the number it came with.",
  }),
} satisfies Readonly<Record<string, (fact: never) => CautionWords>>

function on(fact: CautionFact): string {
  return fact.day === null ? "" : ` on ${day(fact.day)}`
}

function potassium({ number, comparator }: CautionFact): string {
  return number === null ? "" : lab({ number, comparator, unit: "mmol/L", decimals: 1 })
}
