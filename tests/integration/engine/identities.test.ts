import { afterEach, describe, expect, it } from "vitest"
import { z } from "zod"
import { openEngine, type RawFacts, type TestEngine } from "../../helpers/open-engine"

let engine: TestEngine | undefined

afterEach(() => engine?.close())

const record = (patientId: string, more: object = {}) => ({
  patient_id: patientId,
  public_id: `public-${patientId}`,
  birth_date: "1960-05-01",
  sex: "female",
  registered_on: "2020-01-01",
  ...more,
})

const reading = (patientId: string, takenAt: string, systolic: number) => ({
  patient_id: patientId,
  taken_at: takenAt,
  systolic,
  diastolic: 80,
  setting: "office",
  is_date_only: false,
})

async function readingsOf(facts: RawFacts) {
  engine = await openEngine(facts, { today: "2026-10-31" })
  return engine.ask({
    sql: "select patient_id, cast(systolic as integer) as systolic from bp_readings order by patient_id, systolic, line",
    Row: z.object({ patient_id: z.string(), systolic: z.number() }),
  })
}

describe("records of one person", () => {
  it("hands the facts of a chain of merged records to the last of them", async () => {
    const rows = await readingsOf({
      patient_records_raw: [
        record("A", { merged_into: "B" }),
        record("B", { merged_into: "C" }),
        record("C"),
      ],
      readings_raw: [reading("A", "2026-10-01 09:00:00", 130), reading("C", "2026-10-02 09:00:00", 140)],
    })

    expect(rows).toEqual([
      { patient_id: "C", systolic: 130 },
      { patient_id: "C", systolic: 140 },
    ])
  })

  it("leaves a record alone that names itself, nobody, or closes a circle", async () => {
    const rows = await readingsOf({
      patient_records_raw: [
        record("itself", { merged_into: "itself" }),
        record("nobody", { merged_into: "unknown" }),
        record("circle-1", { merged_into: "circle-2" }),
        record("circle-2", { merged_into: "circle-1" }),
        record("into-circle", { merged_into: "circle-1" }),
      ],
      readings_raw: ["itself", "nobody", "circle-1", "circle-2", "into-circle"].map((id, index) =>
        reading(id, "2026-10-01 09:00:00", 120 + index),
      ),
    })

    expect(rows.map((row) => row.patient_id)).toEqual([
      "circle-1",
      "circle-1",
      "circle-2",
      "itself",
      "nobody",
    ])
  })

  it("counts facts identical under two records of a person once, and two readings of one record twice", async () => {
    const same = "2026-10-01 12:00:00"
    const rows = await readingsOf({
      patient_records_raw: [record("old", { merged_into: "new" }), record("new"), record("other")],
      readings_raw: [
        reading("old", same, 128),
        reading("old", same, 128),
        reading("new", same, 128),
        reading("other", same, 128),
        reading("other", same, 128),
      ],
    })

    expect(rows.map((row) => row.patient_id)).toEqual(["new", "new", "other", "other"])
  })

  it("keeps a test record's facts out of everything", async () => {
    const rows = await readingsOf({
      patient_records_raw: [
        record("test", { is_test: true }),
        record("test-merged", { is_test: true, merged_into: "real" }),
        record("real"),
      ],
      readings_raw: [
        reading("test", "2026-10-01 09:00:00", 130),
        reading("test-merged", "2026-10-01 09:00:00", 130),
      ],
    })

    expect(rows).toEqual([])
  })
})
