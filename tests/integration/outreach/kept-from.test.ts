import { expect, it } from "vitest"
import { outreachList } from "../../../lib/outreach/outreach-list"
import { openEngine } from "../../helpers/open-engine"
import { raw } from "../../helpers/raw-facts"
import { today } from "../../fixtures/outreach-person"

it("tells whom nobody may contact, also who left or died since the last day with data", async () => {
  const people = [
    raw.person("to be contacted"),
    raw.person("asked", { do_not_contact: true }),
    raw.person("asked and died", { do_not_contact: true, died_on: "2026-11-03" }),
    raw.person("left today", { left_on: "2026-11-03" }),
    raw.person("leaves tomorrow", { left_on: "2026-11-04" }),
    raw.person("left before", { left_on: today }),
  ]
  const engine = await openEngine(
    {
      patient_records_raw: people,
      visits_raw: people.map((one) => raw.visit(String(one.patient_id), today)),
      readings_raw: people.map((one) => raw.reading(String(one.patient_id), today, 190)),
    },
    { today },
  )
  const rows = await engine.ask(outreachList, { as_of: today, today: "2026-11-03" })
  engine.close()

  expect(Object.fromEntries(rows.map((row) => [row.patient_id, row.kept_from]))).toEqual({
    "to be contacted": null,
    asked: "asked not to be contacted",
    "asked and died": "died",
    "left today": "left",
    "leaves tomorrow": null,
  })
})
