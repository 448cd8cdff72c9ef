import { mkdtempSync, readFileSync, rmSync } from "node:fs"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { describe, expect, it } from "vitest"
import { factKinds } from "../../../lib/domain/fact-kinds"
import { badLines } from "../../../seed/bad-lines"
import { dayOf } from "../../../seed/calendar"
import { tellClinic, writeDemoClinic } from "../../../seed/write-demo-clinic"
import { filesFromTexts, readCsv } from "../../reference/csv"
import { day } from "../../reference/day"
import { readExtract } from "../../reference/read-extract"
import { openMemoryExtract } from "./memory-extract"

const through = "2026-11-24"
const slow = { timeout: 60_000 }

function tell(options: { patients: number; seed?: number; months?: number }) {
  const extract = openMemoryExtract()
  const clinic = tellClinic({ ...options, through }, extract)
  return { clinic, texts: extract.texts() }
}

function read(texts: Record<string, string>) {
  return readExtract({
    open: filesFromTexts(texts),
    timeZone: "America/Chicago",
    importDay: day("2026-11-25"),
  })
}

function rowsOf(texts: Record<string, string>, file: string) {
  return readCsv(new TextEncoder().encode(texts[file] ?? ""), []).flatMap((row) => (row ? [row] : []))
}

const { clinic, texts } = tell({ patients: 150, seed: 5 })

describe("the demo clinic", slow, () => {
  it("keeps the contract in every row but those wrong on purpose", () => {
    const { rejected } = read(texts)
    const bad = badLines({ patients: 150, through: dayOf(through) }).filter(
      (line) => line.outcome === "rejected",
    )

    for (const [file, count] of Object.entries(rejected)) {
      expect(count, file).toBe(bad.filter((line) => `${line.file}.csv` === file).length)
    }
  })

  it("names only staff and appointments the contract can read", () => {
    const bad = badLines({ patients: 150, through: dayOf(through) }).map((line) => line.text.split(",")[0])
    const isGood = (id: string | undefined) => !bad.includes(id)
    const staff = rowsOf(texts, "staff.csv").filter((row) => isGood(row.staff_id))
    const appointments = rowsOf(texts, "appointments.csv").filter((row) => isGood(row.appointment_id))

    expect(staff.map((row) => row.role).filter((role) => role === "nephrologist")).toHaveLength(6)
    expect(staff.map((row) => row.role).filter((role) => role === "dietitian")).toHaveLength(2)
    for (const row of appointments) {
      expect(row.starts_at).toMatch(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/)
      expect(["office", "telehealth"]).toContain(row.kind)
      expect(["booked", "kept", "cancelled", "missed", ""]).toContain(row.status)
    }
    expect(appointments.some((row) => (row.starts_at ?? "") > through)).toBe(true)
  })

  it("tells the rows of each file as it wrote them", () => {
    for (const kind of factKinds) {
      const records = readCsv(new TextEncoder().encode(texts[`${kind}.csv`] ?? ""), [])
      expect(records, kind).toHaveLength(clinic.rowsByFile[kind])
    }
  })

  it("carries the dirt of real extracts", () => {
    const labs = rowsOf(texts, "labs.csv")
    const readings = rowsOf(texts, "readings.csv").filter((row) => row.retracted !== "true")
    const medications = rowsOf(texts, "medications.csv")
    const units = new Set(labs.map((row) => row.unit))

    expect([...units]).toEqual(expect.arrayContaining(["mg/dL", "umol/L", "mg/g", "mg/mmol"]))
    expect(labs.some((row) => row.value?.startsWith("<"))).toBe(true)
    expect(labs.some((row) => row.haemolysed === "yes")).toBe(true)
    expect(labs.some((row) => row.status === "preliminary")).toBe(true)
    expect(labs.some((row) => row.test === "2160-0") && labs.some((row) => row.test === "creatinine")).toBe(
      true,
    )
    expect(new Set(readings.map((row) => row.setting?.toLowerCase()))).toEqual(
      new Set(["office", "home", "ambulatory", "emergency", "inpatient", "dialysis"]),
    )
    expect(medications.some((row) => row.as_needed === "yes")).toBe(true)
    expect(medications.some((row) => row.route === "ophthalmic")).toBe(true)
    expect(medications.some((row) => /valsartan|HCTZ|hydrochlorothiazide/i.test(row.drug ?? ""))).toBe(true)
    expect(medications.some((row) => row.stop_reason?.startsWith("potassium"))).toBe(true)
    expect(rowsOf(texts, "patients.csv").filter((row) => row.is_test === "true")).toHaveLength(1)
  })

  it("gives everybody facts only between birth and the last day", () => {
    const births = new Map(
      rowsOf(texts, "patients.csv").map((row) => [row.patient_id ?? "", row.birth_date ?? ""]),
    )
    const events = [
      ...rowsOf(texts, "visits.csv").map((row) => ({
        id: row.visit_id,
        of: row.patient_id,
        on: row.started_on,
      })),
      ...rowsOf(texts, "readings.csv").map((row) => ({
        id: row.reading_id,
        of: row.patient_id,
        on: row.taken_at,
      })),
      ...rowsOf(texts, "labs.csv").map((row) => ({
        id: row.lab_id,
        of: row.patient_id,
        on: row.collected_at,
      })),
      ...rowsOf(texts, "medications.csv").map((row) => ({
        id: row.order_id,
        of: row.patient_id,
        on: row.started_on,
      })),
      ...rowsOf(texts, "problems.csv").map((row) => ({
        id: row.problem_id,
        of: row.patient_id,
        on: row.onset_on,
      })),
      ...rowsOf(texts, "diet.csv").map((row) => ({
        id: row.diet_id,
        of: row.patient_id,
        on: row.recorded_on,
      })),
    ].filter((event) => event.on && !event.id?.startsWith("BAD-"))

    expect(events.length).toBeGreaterThan(10_000)
    const isOutside = ({ of, on }: { of?: string; on?: string }) =>
      (on ?? "") <= (births.get(of ?? "") ?? "9999") || (on ?? "").slice(0, 10) > through
    expect(events.filter(isOutside)).toEqual([])
  })

  it("works for one person and for twelve", () => {
    for (const patients of [1, 12]) {
      const small = tell({ patients, months: 6 })
      const { facts, rejected } = read(small.texts)

      expect(facts.patients.length).toBeGreaterThanOrEqual(patients)
      expect(Object.values(rejected).reduce((sum, count) => sum + count, 0)).toBeLessThanOrEqual(1)
    }
  })

  it("refuses options that make no clinic", () => {
    const extract = openMemoryExtract()

    expect(() => tellClinic({ patients: 0, through }, extract)).toThrow(RangeError)
    expect(() => tellClinic({ patients: 1.5, through }, extract)).toThrow(RangeError)
    expect(() => tellClinic({ months: 0, through }, extract)).toThrow(RangeError)
    expect(() => tellClinic({ through: "2026-02-30" }, extract)).toThrow(RangeError)
  })
})

describe("the files of the demo clinic", slow, () => {
  it("hold the same lines as told, the diet file as a Windows program writes it", () => {
    const folder = mkdtempSync(join(tmpdir(), "demo-clinic-"))
    try {
      writeDemoClinic({ folder, patients: 20, seed: 5, through })
      const told = tell({ patients: 20, seed: 5 }).texts
      for (const kind of factKinds) {
        const bytes = readFileSync(join(folder, `${kind}.csv`), "utf8")
        const expected = told[`${kind}.csv`] ?? ""
        expect(bytes, kind).toBe(kind === "diet" ? `\uFEFF${expected.replaceAll("\n", "\r\n")}` : expected)
      }
    } finally {
      rmSync(folder, { recursive: true })
    }
  })
})
