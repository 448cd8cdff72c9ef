import { afterEach, describe, expect, it } from "vitest"
import { z } from "zod"
import { openEngine, type TestEngine } from "../../helpers/open-engine"

let engine: TestEngine | undefined

afterEach(() => engine?.close())

const person = {
  patient_id: "P",
  public_id: "public-P",
  birth_date: "1960-05-01",
  sex: "male",
  registered_on: "2020-01-01",
}

async function asOfDates(visitDays: string[], today: string) {
  engine = await openEngine(
    {
      patient_records_raw: [person],
      visits_raw: visitDays.map((day) => ({
        patient_id: "P",
        visit_id: day,
        started_on: day,
        kind: "office",
      })),
    },
    { today },
  )
  return engine.ask({
    sql: "select as_of, month, is_running from as_of_dates order by as_of desc",
    Row: z.object({ as_of: z.string(), month: z.string(), is_running: z.boolean() }),
  })
}

describe("the as-of dates", () => {
  it("stand at the latest day with data in the running month, and at 36 month-ends before", async () => {
    const dates = await asOfDates(["2026-11-20", "2026-10-02"], "2026-11-25")

    expect(dates).toHaveLength(37)
    expect(dates[0]).toEqual({ as_of: "2026-11-20", month: "2026-11", is_running: true })
    expect(dates[1]).toEqual({ as_of: "2026-10-31", month: "2026-10", is_running: false })
    expect(dates[36]).toEqual({ as_of: "2023-11-30", month: "2023-11", is_running: false })
  })

  it("stand at the month's end when this month has no data yet", async () => {
    const dates = await asOfDates(["2026-10-20"], "2026-11-25")

    expect(dates[0]).toEqual({ as_of: "2026-10-31", month: "2026-10", is_running: true })
  })

  it("never stand after today", async () => {
    const dates = await asOfDates(["2026-11-26", "2026-11-10"], "2026-11-25")

    expect(dates[0]?.as_of).toBe("2026-11-10")
  })

  it("include 29 February", async () => {
    const dates = await asOfDates(["2024-03-10"], "2024-03-15")

    expect(dates[1]?.as_of).toBe("2024-02-29")
  })
})
