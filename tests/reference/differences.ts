import type { ReferenceAnswer } from "./compute-reference"

type Named = Record<string, unknown>

/** What the product answered for one day, as its commands print it. */
export type ProductAnswer = { patients: Named[]; measures: Named[] }

/**
 * Every field in which the two answers differ, one line each; numbers may differ by 1e-6 and people by nothing.
 * Measures that one side lacks are left to `measuresOfOneSide`, fields the reference does not compute are not compared.
 */
export function differencesBetween(product: ProductAnswer, reference: ReferenceAnswer): string[] {
  const lacking = new Set(measuresOfOneSide(product, reference))
  const isOnBothSides = (measure: Named) => !lacking.has(String(measure["id"]))
  return [
    ...differencesByName(
      product.patients.map(withStandingsBeside),
      reference.patients.map((patient) => withoutMeasures(withStandingsBeside(patient), lacking)),
      "patient_id",
    ),
    ...differencesByName(
      product.measures.filter(isOnBothSides),
      reference.measures.filter(isOnBothSides),
      "id",
    ),
  ]
}

/** The measures only one side answers, sorted. */
export function measuresOfOneSide(
  product: Pick<ProductAnswer, "measures">,
  reference: Pick<ReferenceAnswer, "measures">,
): string[] {
  const ours = product.measures.map((measure) => String(measure["id"]))
  const theirs = reference.measures.map((measure) => String(measure.id))
  const [onlyOurs, onlyTheirs] = [
    ours.filter((id) => !theirs.includes(id)),
    theirs.filter((id) => !ours.includes(id)),
  ]
  return [...onlyOurs, ...onlyTheirs].sort()
}

/** One flat row: the standings beside the values, each under the id of its measure. */
function withStandingsBeside(patient: Named): Named {
  const { standings, ...values } = patient
  return { ...values, ...(typeof standings === "object" ? standings : {}) }
}

function withoutMeasures(patient: Named, lacking: Set<string>): Named {
  return Object.fromEntries(Object.entries(patient).filter(([name]) => !lacking.has(name)))
}

function differencesByName(product: Named[], reference: Named[], nameColumn: string): string[] {
  const productByName = new Map(product.map((row) => [row[nameColumn], row]))
  const referenceByName = new Map(reference.map((row) => [row[nameColumn], row]))
  const names = [...new Set([...productByName.keys(), ...referenceByName.keys()])]
  return names.flatMap((name) => {
    const [ours, theirs] = [productByName.get(name), referenceByName.get(name)]
    if (!ours || !theirs) return [`${String(name)}: only the ${ours ? "product" : "reference"} has it`]
    return Object.keys(theirs)
      .filter((field) => !isSame(ours[field], theirs[field]))
      .map(
        (field) =>
          `${String(name)}: ${field} is ${show(ours[field])}, by the reference ${show(theirs[field])}`,
      )
  })
}

function isSame(a: unknown, b: unknown): boolean {
  if (typeof a === "number" && typeof b === "number") return Math.abs(a - b) <= 1e-6
  return show(a) === show(b)
}

/** As JSON with the keys of an object in order. */
function show(value: unknown): string {
  if (value === undefined) return "missing"
  return JSON.stringify(value, (_, part: unknown) =>
    part !== null && typeof part === "object" && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  )
}
