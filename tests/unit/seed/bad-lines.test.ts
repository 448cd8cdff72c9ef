import { describe, expect, it } from "vitest"
import { factKinds } from "../../../lib/domain/fact-kinds"
import { badLines } from "../../../seed/bad-lines"
import { dayOf } from "../../../seed/calendar"
import { filesFromTexts } from "../../reference/csv"
import { day } from "../../reference/day"
import { readExtract } from "../../reference/read-extract"
import { openMemoryExtract } from "./memory-extract"

const through = dayOf("2026-11-24")
const all = badLines({ patients: 2400, through })

function countByFile(lines: readonly { file: string }[]): Record<string, number> {
  return Object.fromEntries(
    factKinds.map((kind) => [kind, lines.filter((line) => line.file === kind).length]),
  )
}

describe("lines that are wrong on purpose", () => {
  it("are about forty, in every file, and never enough in one to stop an import", () => {
    const counts = countByFile(all)

    expect(all.length).toBeGreaterThanOrEqual(38)
    expect(all.length).toBeLessThanOrEqual(50)
    for (const kind of factKinds) {
      expect(counts[kind], kind).toBeGreaterThan(0)
      // An import stops at 20 rows of a file or more, when they are also more than 5 %.
      expect(counts[kind], kind).toBeLessThan(20)
    }
  })

  it("become fewer in a small clinic and none in a tiny one", () => {
    expect(badLines({ patients: 9, through })).toHaveLength(0)
    expect(badLines({ patients: 12, through })).toHaveLength(1)
    expect(badLines({ patients: 120, through })).toHaveLength(12)
    expect(badLines({ patients: 20_000, through })).toHaveLength(all.length)
  })

  it("stand among the rows of people the clinic has", () => {
    for (const line of badLines({ patients: 31, through })) {
      expect(line.afterPatient).toBeGreaterThanOrEqual(1)
      expect(line.afterPatient).toBeLessThanOrEqual(31)
    }
  })

  it("are each rejected or held by an independent reading of the contract", () => {
    const extract = openMemoryExtract()
    extract.write("patients", {
      patient_id: "LK-000001",
      birth_date: "1950-05-05",
      sex: "female",
      registered_on: "2020-01-01",
    })
    all.forEach((line) => extract.writeLine(line.file, line.text))
    extract.close()

    const { facts, rejected } = readExtract({
      open: filesFromTexts(extract.texts()),
      timeZone: "America/Chicago",
      importDay: day("2026-11-25"),
    })

    const expected = countByFile(all.filter((line) => line.outcome === "rejected"))
    for (const [file, count] of Object.entries(rejected))
      expect(count, file).toBe(expected[file.replace(".csv", "")])
    expect(facts.patients).toHaveLength(1)
    const others = [
      facts.visits,
      facts.readings,
      facts.labs,
      facts.orders,
      facts.problems,
      facts.allergies,
      facts.diet,
    ]
    expect(others.flat()).toEqual([])
  })

  it("give staff and appointments a word or a time outside the contract", () => {
    const roles = /nephrologist|dietitian|coordinator|nurse|other/i
    const staff = all.filter((line) => line.file === "staff")
    const appointments = all
      .filter((line) => line.file === "appointments")
      .map((line) => line.text.split(","))

    expect(staff.filter((line) => roles.test(line.text))).toEqual([])
    const isReadable = (fields: string[]) =>
      /^\d{4}-\d{2}-\d{2}/.test(fields[2] ?? "") && /^(booked|kept|cancelled|missed|)$/.test(fields[5] ?? "")
    expect(appointments.filter(isReadable)).toEqual([])
  })
})
