import type { ReferenceAnswer } from "./compute-reference"

type Named = Record<string, unknown>

/** What the product answered for one day, as its commands print it. */
export type ProductAnswer = { patients: Named[]; measures: Named[] }

/** Every field in which the two answers differ, one line each; numbers may differ by 1e-6 and people by nothing. */
export function differencesBetween(product: ProductAnswer, reference: ReferenceAnswer): string[] {
  return [
    ...differencesByName(product.patients, reference.patients, "patient_id"),
    ...differencesByName(product.measures, reference.measures, "id"),
  ]
}

function differencesByName(product: Named[], reference: Named[], nameColumn: string): string[] {
  const productByName = new Map(product.map((row) => [row[nameColumn], row]))
  const referenceByName = new Map(reference.map((row) => [row[nameColumn], row]))
  const names = [...new Set([...productByName.keys(), ...referenceByName.keys()])]
  return names.flatMap((name) => {
    const [ours, theirs] = [productByName.get(name), referenceByName.get(name)]
    if (!ours || !theirs) return [`${String(name)}: only the ${ours ? "product" : "reference"} has it`]
    return fieldsThatDiffer(ours, theirs).map(
      (field) => `${String(name)}: ${field} is ${show(ours[field])}, by the reference ${show(theirs[field])}`,
    )
  })
}

function fieldsThatDiffer(product: Named, reference: Named): string[] {
  const fields = [...new Set([...Object.keys(product), ...Object.keys(reference)])]
  return fields.filter((field) => !isSame(product[field], reference[field]))
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
