import { askOn } from "../../lib/engine/run"
import { dietSodium } from "../../lib/measures/diet-sodium"
import { measures } from "../../lib/measures/index"
import { dietMean } from "../../lib/questions/diet-mean"
import { panelPatients } from "../../lib/questions/panel-patients"
import { handMadeClinics } from "../fixtures/clinic"
import { differencesOf } from "../fixtures/clinic-differences"
import type { HandMadePerson } from "../fixtures/clinic-person"
import { settingsClinics } from "../fixtures/clinic-settings"
import { openReference } from "../reference/compute-reference"
import { filesInFolder } from "../reference/csv"
import type { CheckedClinic } from "./clinics"
import { signatureOf, type Pipeline } from "./pipeline"

/** What is known to be right about a clinic, and whether a changed computation still says it. */
export type Checks = { isStillRight: (changed: readonly string[]) => Promise<boolean> }

type Named = Record<string, unknown>

/**
 * Asserts that the computation as it is says what was worked out by hand and, in every field both give, what the
 * independent route says. From then on those answers are what a mutant must not change.
 */
export async function checksOf(clinic: CheckedClinic, pipeline: Pipeline): Promise<Checks> {
  const { connection } = pipeline
  const people = [...handMadeClinics, ...settingsClinics].find((one) => one.name === clinic.name)?.people
  const fields = isUsual(clinic) ? await agreedFields(clinic, pipeline) : []
  if (people !== undefined) await assertByHand(people, clinic, pipeline)
  const [values, standings] = [fields.filter((field) => !isMeasure(field)), fields.filter(isMeasure)]
  const agreedValues = `patient_id, as_of, in_panel${values.map((name) => `, ${name}`).join("")}`
  const agreedStandings = `patient_id, as_of${standings.map((id) => `, ${columnOf(id)}`).join("")}`
  const agreed = [
    { tables: ["patient_month"], columns: agreedValues, of: "(from patient_month where in_panel)" },
    { tables: ["patient_standings"], columns: agreedStandings, of: "patient_standings" },
    {
      tables: ["diet_months"],
      columns: "as_of, n, mean_mg, sd_mg, paired_n, paired_change_mg",
      of: `(from diet_months where series = '${dietSodium.headlineSeries}')`,
    },
  ]
  const asked = isUsual(clinic) ? agreed : []
  const right = await Promise.all(asked.map((one) => signatureOf(connection, one.of, one.columns)))
  return {
    isStillRight: async (changed) => {
      for (const [place, one] of asked.entries())
        if (one.tables.some((table) => changed.includes(table)))
          if ((await signatureOf(connection, one.of, one.columns)) !== right[place]) return false
      const isAnswered = changed.includes("patient_month") || changed.includes("patient_standings")
      if (people === undefined || !isAnswered) return true
      return differencesOf(people, await patientsOn(pipeline, clinic.days[0] ?? "")).length === 0
    },
  }
}

/** The independent route knows the usual settings only. */
function isUsual(clinic: CheckedClinic): boolean {
  return Object.keys(clinic.settings).length === 0
}

async function assertByHand(
  people: HandMadePerson[],
  clinic: CheckedClinic,
  pipeline: Pipeline,
): Promise<void> {
  const differences = differencesOf(people, await patientsOn(pipeline, clinic.days[0] ?? ""))
  if (differences.length > 0)
    throw new Error(`${clinic.name} differs from what is known: ${differences.join("; ")}`)
}

/** The fields that both routes answer; asserts that they answer them alike. */
async function agreedFields(clinic: CheckedClinic, pipeline: Pipeline): Promise<string[]> {
  const { folder, timeZone, importDay } = clinic
  const referenceOn = openReference({ open: filesInFolder(folder), timeZone, importDay })
  const fields = new Set<string>()
  for (const on of clinic.days) {
    const reference = referenceOn(on)
    const product = new Map((await patientsOn(pipeline, on)).map((row) => [row.patient_id, row]))
    if (reference.patients.length !== product.size)
      throw new Error(`${clinic.name} has another panel on ${on}`)
    for (const { standings, ...values } of reference.patients)
      for (const [field, right] of Object.entries({ ...values, ...standings })) {
        const ours: Named = product.get(values.patient_id) ?? {}
        if (!(field in ours)) continue
        if (!isSame(ours[field], right))
          throw new Error(`${clinic.name}: ${field} of ${values.patient_id} differs on ${on}`)
        fields.add(field)
      }
    const sodium = reference.measures.find((measure) => measure.id === dietSodium.id)
    if (!isSame(await sodiumOn(pipeline, on), pick(sodium ?? {})))
      throw new Error(`${dietSodium.id} differs on ${on}`)
  }
  fields.delete("patient_id")
  return [...fields]
}

/** Equal as JSON; numbers may differ by 1e-6. */
function isSame(a: unknown, b: unknown): boolean {
  if (typeof a === "number" && typeof b === "number") return Math.abs(a - b) <= 1e-6
  if (Array.isArray(a) && Array.isArray(b))
    return a.length === b.length && a.every((one, at) => isSame(one, b[at]))
  return JSON.stringify(a) === JSON.stringify(b)
}

function pick({ n, meanMg, pairedN, pairedChangeMg }: Named): unknown[] {
  return [n, meanMg, pairedN, pairedChangeMg]
}

async function sodiumOn({ connection }: Pipeline, on: string): Promise<unknown[]> {
  const [row] = await askOn(connection, dietMean, { as_of: on, series: dietSodium.headlineSeries })
  return row ? [row.n, row.mean_mg, row.paired_n, row.paired_change_mg] : [0, null, 0, null]
}

async function patientsOn({ connection }: Pipeline, on: string) {
  const rows = await askOn(connection, panelPatients, { as_of: on })
  return rows.map(({ standings, ...values }) => {
    const byId = Object.fromEntries(measures.map((measure, place) => [measure.id, standings[place] ?? ""]))
    return { ...values, ...byId, standings: byId }
  })
}

function isMeasure(field: string): boolean {
  return measures.some((measure) => measure.id === field)
}

function columnOf(id: string): string {
  return id.replaceAll("-", "_")
}
