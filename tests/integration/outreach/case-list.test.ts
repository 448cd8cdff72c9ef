import pg from "pg"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { wholeClinic, type Scope } from "../../../lib/access/scope"
import { listCases } from "../../../lib/store/case-list"
import { fillWithCases } from "../../helpers/many-cases"
import { openOutreachClinic, type OutreachClinic } from "../../helpers/outreach-clinic"

const count = 50_000
const north: Scope = { sites: ["North"], panelOf: null }
let clinic: OutreachClinic
let site: pg.Client

beforeAll(async () => {
  clinic = await openOutreachClinic()
  await fillWithCases(clinic.store.client, count)
  site = new pg.Client({ connectionString: clinic.urls.app })
  await site.connect()
})

afterAll(async () => {
  await site.end()
  await clinic.close()
})

const page = (own: Partial<Parameters<typeof listCases>[1]> = {}) =>
  listCases(clinic.app, {
    ...{ scope: wholeClinic, on: "2026-10-31", which: "to contact", after: 0, limit: 50 },
    ...own,
  })

describe("a page of many open cases", () => {
  test("has those to be contacted in their order, and goes on where the last one ended", async () => {
    const first = await page()
    const second = await page({ after: first.at(-1)?.place ?? 0 })

    expect(first).toHaveLength(50)
    expect(first.slice(0, 9).map((one) => one.patientId)).toEqual(
      [2, 3, 4, 5, 6, 7, 8, 9, 12].map((number) => `P${number}`),
    )
    expect(first[0]?.case.reasons.map((one) => one.reason)).toEqual(["urine-albumin-due", "above-target"])
    expect(second[0]?.place).toBeGreaterThan(first.at(-1)?.place ?? count)
    expect((await page({ which: "urgent" })).every((one) => one.tier === "urgent")).toBe(true)
  })

  test("has nobody beyond the part of the clinic that somebody sees", async () => {
    const own = await page({ scope: north })

    expect(own).toHaveLength(50)
    expect(own.every((one) => one.site === "North")).toBe(true)
  })

  test("is read along the index of the order, also under row security", async () => {
    await site.query("begin")
    await site.query("select set_config('filtrate.scope', 'whole', true)")
    const plan = await site.query(
      `explain select c.* from outreach_cases as c
       where c.state = 'open' and c.kept_from is null and c.place > 25000 and c.tier <> 'urgent' and not c.is_booked_soon
         and (c.again_on is null or c.again_on <= date '2026-10-31')
       order by c.place limit 50`,
    )
    await site.query("rollback")

    const lines = JSON.stringify(plan.rows)
    expect(lines).toContain("Index Scan using outreach_cases_list_in_force")
    expect(lines).not.toContain("Sort")
  })
})

describe("the site's role, by plain SQL", () => {
  const tables = ["outreach_cases", "outreach_case_reasons"]

  test.each(tables)("sees nothing of %s without saying who asks", async (table) => {
    expect((await site.query(`select from ${table} limit 5`)).rowCount).toBe(0)
  })

  test.each(tables)("sees of %s the patients in scope alone, and changes no other", async (table) => {
    await site.query("begin")
    await site.query(
      "select set_config('filtrate.scope', 'part', true), set_config('filtrate.sites', 'North', true)",
    )
    const seen = await site.query<{ patient_id: string }>(
      `select patient_id from ${table} where patient_id = any (array['P1', 'P2', 'P3', 'P4'])`,
    )
    const changed = await site.query(
      "update outreach_cases set assigned_to = null where patient_id = any (array['P1', 'P2', 'P3', 'P4'])",
    )
    await site.query("rollback")

    expect(new Set(seen.rows.map((row) => row.patient_id))).toEqual(new Set(["P2", "P4"]))
    expect(changed.rowCount).toBe(2)
  })
})
