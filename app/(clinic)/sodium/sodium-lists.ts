import type { SodiumCounts } from "../../../lib/questions/sodium-counts"
import {
  farAboveMg,
  sodiumAbove,
  sodiumChanged,
  sodiumDoubtfulUrines,
  sodiumNotAssessed,
} from "../../../lib/questions/sodium-people"
import { milligrams } from "../../../lib/speech/format"

const far = `above ${milligrams(farAboveMg)}`
const change =
  "Those who fell or rose have a record of the month and one 3 to 15 months before, of the same way of asking."

/** The lists of the sodium screen as an address tells them; the first is shown unless another is asked for. */
export const sodiumLists = [
  {
    param: null,
    words: `${far}, pressure above target`,
    order:
      "The highest sodium first; how people were asked stands beside each, and the ways do not measure alike.",
    count: "above_uncontrolled",
    question: sodiumAbove,
    detail: "uncontrolled",
  },
  {
    param: "above",
    words: `${far}, whatever the pressure`,
    order: "Pressure above target first, then the highest sodium; the ways of asking do not measure alike.",
    count: "above",
    question: sodiumAbove,
    detail: null,
  },
  {
    param: "not-assessed",
    words: "not assessed in 12 months",
    order: "The next visit first, then the highest risk by eGFR and urine albumin.",
    count: "not_assessed",
    question: sodiumNotAssessed,
    detail: null,
  },
  {
    param: "fell",
    words: "eat less than 3 to 15 months before",
    order: `The largest fall first, one way of asking after the other. ${change}`,
    count: "fell",
    question: sodiumChanged,
    detail: "fell",
  },
  {
    param: "rose",
    words: "eat more than 3 to 15 months before",
    order: `The largest rise first, one way of asking after the other. ${change}`,
    count: "rose",
    question: sodiumChanged,
    detail: "rose",
  },
  {
    param: "doubtful-urine",
    words: "with a doubtful 24-hour urine",
    order: "The latest first, of the last 12 months. It may be incomplete; it counts as any other.",
    count: "doubtful_urine",
    question: sodiumDoubtfulUrines,
    detail: null,
  },
] as const satisfies readonly {
  param: string | null
  words: string
  order: string
  count: keyof SodiumCounts
  question: object
  detail: string | null
}[]

export type SodiumList = (typeof sodiumLists)[number]

export function shownList(list: string | null): SodiumList {
  return sodiumLists.find(({ param }) => param === list) ?? sodiumLists[0]
}
