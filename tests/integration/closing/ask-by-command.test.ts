import { parse } from "csv-parse/sync"
import { afterAll, beforeAll, expect, test } from "vitest"
import { z } from "zod"
import { closedDay, openClosingClinic, type ClosingClinic } from "../../helpers/closing-clinic"
import { filtrate } from "../../helpers/filtrate"

// Who is at target is read off the six people of the fixture.

let clinic: ClosingClinic

beforeAll(async () => {
  clinic = await openClosingClinic()
  await clinic.closeJanuary()
  await clinic.bringIn({
    readings: ["reading_id,patient_id,taken_at,systolic,diastolic,setting", "R5,P5,2026-01-20,118,72,office"],
  })
  await clinic.rebuild()
})

afterAll(() => clinic.close())

async function atTarget(...options: string[]): Promise<string[]> {
  const { exitCode, stdout, stderr } = await filtrate(
    ["export", "bp-at-target", "--on", closedDay, "--standing", "met", "--csv", ...options],
    { FILTRATE_DATA: clinic.dataDir, FILTRATE_TIME_ZONE: "UTC", DATABASE_URL: clinic.store.url },
  )
  expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: "" })
  const rows = z.array(z.looseObject({ patient_id: z.string() })).parse(parse(stdout, { columns: true }))
  return rows.map((row) => row.patient_id).sort()
}

test("a list of a closed month is printed as known then, and with --today by what is known since", async () => {
  expect(await atTarget()).toEqual(["P1", "P2"])
  expect(await atTarget("--today")).toEqual(["P1", "P2", "P5"])
})
