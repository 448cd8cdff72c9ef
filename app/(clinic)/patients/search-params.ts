import { z } from "zod"
import { hrefOf, type RawSearch } from "../../_ui/href"
import { MonthParam } from "../search-params"

/** What the list can be narrowed by; the words are those of the panel table's own columns. */
export const facetNames = [
  "caution",
  "pressure",
  "category",
  "cell",
  "g",
  "a",
  "risk",
  "kidney",
  "ras",
  "classes",
  "missing",
  "clinician",
  "site",
  "age",
  "sex",
  "standing",
] as const

export type FacetName = (typeof facetNames)[number]

const one = z.preprocess((raw) => (Array.isArray(raw) ? raw[0] : raw), z.string().nullable().catch(null))

/** A parameter that may be said several times; none is no filter and stays out of the address. */
const several = z.preprocess(
  (raw) => (raw === undefined ? [] : Array.isArray(raw) ? raw : [raw]),
  z.array(z.string()).catch([]),
)

const PatientsView = z.object({
  caution: several,
  pressure: several,
  category: several,
  cell: several,
  g: several,
  a: several,
  risk: several,
  kidney: several,
  ras: several,
  classes: several,
  missing: several,
  clinician: several,
  site: several,
  age: several,
  sex: several,
  standing: several,
  month: z.preprocess((raw) => (Array.isArray(raw) ? raw[0] : raw), MonthParam),
  measure: one,
  sort: one,
  columns: several,
})

/** The view of the panel: month, filters, order, columns. What was typed to find a name never enters an address. */
export type PatientsView = z.infer<typeof PatientsView>

export function parsePatientsView(raw: RawSearch): PatientsView {
  return PatientsView.parse(raw)
}

/** The same, from the address bar of the browser. */
export function parsePatientsAddress(params: URLSearchParams): PatientsView {
  return parsePatientsView(Object.fromEntries([...params.keys()].map((name) => [name, params.getAll(name)])))
}

export function patientsHref(view: PatientsView): string {
  const params = new URLSearchParams()
  for (const name of [...facetNames, "columns"] as const)
    for (const word of view[name]) params.append(name, word)
  for (const name of ["month", "measure", "sort"] as const) {
    const word = view[name]
    if (word !== null) params.set(name, word)
  }
  const query = params.toString()
  return query === "" ? "/patients" : `/patients?${query}`
}

/** The address of one person, with the month one came from. */
export function patientHref(publicId: string, month: string | null): string {
  return hrefOf(`/patients/${publicId}`, { month })
}

/** The same view with one word of a filter taken, or let go if it was taken. */
export function toggled(view: PatientsView, facet: FacetName, word: string): PatientsView {
  const chosen = view[facet]
  const isChosen = chosen.includes(word)
  return { ...view, [facet]: isChosen ? chosen.filter((taken) => taken !== word) : [...chosen, word] }
}

/** The same view without any filter. */
export function unfiltered(view: PatientsView): PatientsView {
  return { ...view, ...Object.fromEntries(facetNames.map((name) => [name, []])), measure: null }
}

export function isFiltered(view: PatientsView): boolean {
  return facetNames.some((name) => view[name].length > 0)
}
