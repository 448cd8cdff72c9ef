import { cautions } from "../../../lib/measures/cautions"
import type { FacetName, PatientsView } from "./search-params"
import type { Panel, TextColumn, TextName } from "./panel"

/** What stands for "no value" among the words of a facet. */
export const unknownWord = "unknown"
export const unassignedWord = "not assigned"

/**
 * One way to divide the panel. `words` are its parts, `codes` says which part each row is in (bits, where a row may be
 * in several parts at once).
 */
export type Facet = {
  readonly name: FacetName
  readonly words: readonly string[]
  readonly codes: Uint32Array
  readonly isBits: boolean
}

/** How a facet is told to a reader: its heading, and the words of its parts where they are not the table's own. */
export type FacetSpeech = { readonly title: string; readonly words: Readonly<Record<string, string>> }

/** What the data carry of caution, with the flag on potassium in the diet, each by its own word. */
export const cautionNames: Readonly<Record<string, string>> = {
  ...Object.fromEntries(cautions.map((caution) => [caution.id, caution.name])),
  "potassium-in-the-diet": "Potassium in the diet: the serum potassium is high",
}

export const facetSpeech: Readonly<Record<FacetName, FacetSpeech>> = {
  caution: { title: "Cautions", words: cautionNames },
  pressure: { title: "Pressure", words: {} },
  category: { title: "Pressure category", words: { [unknownWord]: "not measured" } },
  cell: { title: "Stage", words: {} },
  g: { title: "eGFR category", words: { [unknownWord]: "no eGFR" } },
  a: { title: "Urine category", words: { [unknownWord]: "no urine result" } },
  risk: { title: "KDIGO risk", words: { [unknownWord]: "not known" } },
  kidney: {
    title: "Kidneys",
    words: {
      ckd: "CKD, own kidneys",
      dialysis: "on dialysis",
      transplant: "transplanted",
      none: "no sign of CKD",
    },
  },
  ras: { title: "ACE inhibitor or ARB", words: {} },
  classes: { title: "Drug classes", words: { "0": "none" } },
  missing: {
    title: "Missing",
    words: {
      pressure: "no usable pressure",
      urine: "no urine albumin in 12 months",
      diet: "no diet record in 12 months",
      kidney: "kidney status not known",
    },
  },
  clinician: { title: "Clinician", words: {} },
  site: { title: "Site", words: {} },
  age: { title: "Age", words: {} },
  sex: { title: "Sex recorded at birth", words: { [unknownWord]: "not known" } },
  standing: { title: "Standing", words: {} },
}

/** A chosen part as it stands by itself, away from its heading. */
export function chipWords(name: FacetName, word: string): string {
  const told = facetSpeech[name].words[word] ?? word
  if (name === "ras")
    return word === "stopped"
      ? "ACE inhibitor or ARB stopped"
      : `${word} ${word === "on" ? "an " : "on an "}ACE inhibitor or ARB`
  if (name === "classes") return word === "0" ? "no drug class" : `${word} drug classes`
  if (name === "risk" && word !== unknownWord) return `${word} KDIGO risk`
  if (name === "category" && word !== unknownWord) return `${word} pressure`
  return told
}

export const gWords = ["G1", "G2", "G3a", "G3b", "G4", "G5"] as const
export const aWords = ["A1", "A2", "A3"] as const

const orders = {
  pressure: ["above target", "at target", "not measured"],
  category: ["normal", "elevated", "stage 1", "stage 2", "severe", unknownWord],
  g: [...gWords, unknownWord],
  a: [...aWords, unknownWord],
  risk: ["low", "moderately increased", "high", "very high", unknownWord],
  kidney: ["ckd", "dialysis", "transplant", "none"],
  ras: ["on", "stopped", "never"],
  classes: ["0", "1 or 2", "3 or more"],
  age: ["18 to 44", "45 to 64", "65 to 74", "75 to 84", "85 and over"],
  sex: ["female", "male", unknownWord],
  standing: ["not met", "met", "unknown", "exception", "excluded", "outside"],
} as const

/** The facets of a panel; `standingColumn` is that of the chosen measure, null while none is chosen. */
export function facetsOf(panel: Panel, standingColumn: string | null): Facet[] {
  const ordered = (name: keyof typeof orders, column: TextName) =>
    inOrder(name, panel.texts(column), orders[name])
  return [
    cautioned(panel),
    ordered("pressure", "pressure"),
    ordered("category", "category"),
    cells(panel),
    ordered("g", "g"),
    ordered("a", "a"),
    ordered("risk", "risk_cell"),
    ordered("kidney", "kidney"),
    ordered("ras", "ras_history"),
    ordered("classes", "class_band"),
    missing(panel),
    byName("clinician", panel.texts("clinician_name")),
    byName("site", panel.texts("site")),
    ordered("age", "age_band"),
    ordered("sex", "sex"),
    ...(standingColumn ? [inOrder("standing", panel.standings(standingColumn), orders.standing)] : []),
  ]
}

export function cellWord(g: string, a: string): string {
  return `${g} ${a}`
}

function inOrder(name: FacetName, column: TextColumn, words: readonly string[]): Facet {
  const missingPart = Math.max(0, words.indexOf(unknownWord))
  const partByCode = column.words.map((word, code) =>
    code === 0 ? missingPart : Math.max(0, words.indexOf(word)),
  )
  return { name, words, codes: column.codes.map((code) => partByCode[code] ?? 0), isBits: false }
}

function byName(name: FacetName, column: TextColumn): Facet {
  const known = column.words.slice(1).toSorted((one, other) => one.localeCompare(other))
  const words = column.codes.includes(0) ? [...known, unassignedWord] : known
  const partByCode = column.words.map((word, code) => words.indexOf(code === 0 ? unassignedWord : word))
  return { name, words, codes: column.codes.map((code) => partByCode[code] ?? 0), isBits: false }
}

function cells(panel: Panel): Facet {
  const g = inOrder("g", panel.texts("g"), orders.g)
  const a = inOrder("a", panel.texts("a"), orders.a)
  const words = g.words.flatMap((one) => a.words.map((other) => cellWord(one, other)))
  const codes = g.codes.map((part, row) => part * a.words.length + (a.codes[row] ?? 0))
  return { name: "cell", words, codes, isBits: false }
}

function cautioned(panel: Panel): Facet {
  const words = Object.keys(cautionNames)
  const held = panel.texts("cautions")
  const bitsByCode = held.words.map((list) =>
    list
      .split(";")
      .reduce((bits, word) => (words.includes(word) ? bits | (1 << words.indexOf(word)) : bits), 0),
  )
  const isDietFlagged = panel.flags("has_potassium_diet_flag")
  const dietBit = 1 << words.indexOf("potassium-in-the-diet")
  const codes = held.codes.map(
    (code, row) => (bitsByCode[code] ?? 0) | (isDietFlagged[row] === 1 ? dietBit : 0),
  )
  return { name: "caution", words, codes, isBits: true }
}

function missing(panel: Panel): Facet {
  const systolic = panel.numbers("systolic")
  const urine = panel.flags("is_urine_tested_in_year")
  const diet = panel.flags("has_diet_record_in_year")
  const kidney = panel.flags("kidney_known")
  const codes = new Uint32Array(panel.length)
  for (let row = 0; row < panel.length; row += 1)
    codes[row] =
      (Number.isNaN(systolic[row]) ? 1 : 0) |
      (urine[row] === 1 ? 0 : 2) |
      (diet[row] === 1 ? 0 : 4) |
      (kidney[row] === 1 ? 0 : 8)
  return { name: "missing", words: ["pressure", "urine", "diet", "kidney"], codes, isBits: true }
}

/** The words of a filter that the facet has; others in an address stand for nothing. */
export function chosenParts(facet: Facet, view: PatientsView): number[] {
  return view[facet.name].map((word) => facet.words.indexOf(word)).filter((part) => part >= 0)
}
