import { readFileSync } from "node:fs"
import { fileURLToPath } from "node:url"
import { describe, expect, it } from "vitest"
import { filesInFolder } from "../../reference/csv"
import { openReference } from "../../reference/compute-reference"
import { day } from "../../reference/day"
import { readExtract } from "../../reference/read-extract"

const folder = fileURLToPath(new URL("../../fixtures/files/twelve", import.meta.url))
const open = filesInFolder(folder)
const readme = readFileSync(`${folder}/README.md`, "utf8")

/** The cells of the table under a heading, by the first cell of the row. */
function tableUnder(heading: string): Map<string, string[]> {
  const section = readme.split(`## ${heading}`)[1]?.split("\n## ")[0] ?? ""
  const rows = section.split("\n").filter((line) => line.startsWith("| TW-"))
  return new Map(
    rows.map((line) => {
      const [id = "", ...cells] = line
        .split("|")
        .slice(1, -1)
        .map((cell) => cell.trim())
      return [id, cells]
    }),
  )
}

/** The measures worked out by hand, in the order of the table's columns A to F. */
const byHandMeasures = [
  "bp-at-target",
  "bp-under-140-90",
  "pressure-measured",
  "uncontrolled-on-several-classes",
  "ras-blocker-in-albuminuria",
  "acr-tested",
] as const

const ask = openReference({ open, timeZone: "America/Chicago", importDay: "2026-11-25" })
const { patients, measures } = ask("2026-10-31")

describe("the twelve people written by hand", () => {
  it("hold no row the contract rejects", () => {
    const { facts, rejected } = readExtract({ open, timeZone: "Asia/Tokyo", importDay: day("2026-11-25") })

    expect(facts.patients).toHaveLength(12)
    expect(new Set(Object.values(rejected))).toEqual(new Set([0]))
  })

  it("stand in each measure where their README says by hand", () => {
    const byHand = tableUnder("Standings")

    expect([...byHand.keys()]).toEqual(patients.map((patient) => patient.patient_id))
    for (const patient of patients) {
      const asked = byHandMeasures.map((id) => patient.standings[id])
      expect(byHand.get(patient.patient_id), patient.patient_id).toEqual(asked)
    }
  })

  it("are what their README says by hand", () => {
    const byHand = tableUnder("What each is on that day")

    for (const patient of patients) {
      const [pressure = "", , classes, egfr, , albuminuria, ckd, ras] = byHand.get(patient.patient_id) ?? []
      const measured = `${patient.systolic}/${patient.diastolic} ${patient.bp_source}`
      expect(pressure.startsWith(patient.systolic === null ? "not measured" : measured)).toBe(true)
      expect(classes).toBe(patient.classes.length > 0 ? patient.classes.join(", ") : "none")
      expect(egfr).toBe(patient.egfr === null ? "-" : `${patient.egfr} ${patient.g}`)
      expect(albuminuria).toBe(patient.albuminuria)
      expect(ckd).toBe(patient.ckd ? "yes" : "no")
      expect(ras).toBe(patient.ras_history)
    }
  })

  it("eat the sodium their README works out", () => {
    const sodium = measures.find((measure) => measure.id === "diet-sodium")

    expect(sodium).toMatchObject({ n: 3, meanMg: 3200, pairedN: 2, pairedChangeMg: -400 })
  })
})
