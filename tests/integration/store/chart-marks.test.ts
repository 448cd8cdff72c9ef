import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest"
import type { Caller } from "../../../lib/access/caller"
import { listChosenBaselines, setBaseline, undoBaseline } from "../../../lib/store/chart-baselines"
import { addChartNote, listChartNotes, undoChartNote } from "../../../lib/store/chart-notes"
import { namesSomebody } from "../../../lib/store/names-somebody"
import { importExtract, openFolder } from "../../helpers/extract"
import { openStore, type TestStore } from "../../helpers/open-store"

const folder = openFolder()
const now = new Date("2026-10-31T11:30:00Z")
let store: TestStore
let lead: Caller

beforeAll(async () => {
  store = await openStore()
  await store.prisma.clinic.create({ data: { name: "Test clinic", timeZone: "Pacific/Auckland" } })
  const user = await store.prisma.user.create({
    data: { userName: "ingrid", name: "Ingrid Sollie", roles: ["clinic-lead"] },
  })
  const at = { createdAt: now, lastSeenAt: now, endsAt: now, provenAt: now }
  lead = { ...user, userId: user.id, session: { id: "00", method: "password", address: "", ...at } }
})

beforeEach(() => store.client.query("truncate chart_notes, chart_baselines"))

afterAll(async () => {
  await store.close()
  folder.close()
})

async function entriesOf(action: string) {
  return store.prisma.auditEntry.findMany({ where: { action }, orderBy: { seq: "desc" } })
}

describe("a note on a chart", () => {
  const note = { onDay: "2026-03-01", text: "Home cuffs are lent out", now }

  test("stands on its own measure or on all, in the order of days", async () => {
    const add = (measureId: string | null, onDay: string) =>
      addChartNote(store.prisma, { ...note, measureId, onDay, caller: lead })
    await add("bp-at-target", "2026-03-01")
    await add(null, "2025-12-01")
    await add("acr-tested", "2026-01-01")

    const listed = await listChartNotes(store.prisma, "bp-at-target")

    expect(listed.map(({ measureId, onDay }) => [measureId, onDay])).toEqual([
      [null, "2025-12-01"],
      ["bp-at-target", "2026-03-01"],
    ])
    expect(listed[1]).toMatchObject({ text: note.text, madeBy: "Ingrid Sollie", madeAt: now })
  })

  test("is taken back once and stays on record", async () => {
    await addChartNote(store.prisma, { ...note, measureId: null, caller: lead })
    const [one] = await listChartNotes(store.prisma, "bp-at-target")
    const which = { id: one?.id ?? 0, caller: lead, now }

    expect(await undoChartNote(store.prisma, which)).toBe(true)
    expect(await undoChartNote(store.prisma, which)).toBe(false)
    expect(await listChartNotes(store.prisma, "bp-at-target")).toEqual([])
    expect(await store.prisma.chartNote.findMany()).toMatchObject([{ undoneBy: "Ingrid Sollie" }])
  })

  test("is in the audit log without its text", async () => {
    await addChartNote(store.prisma, { ...note, measureId: "bp-at-target", caller: lead })
    const [entry] = await entriesOf("chart-note.add")

    expect(entry).toMatchObject({ actor: lead.userId, detail: { measure: "bp-at-target", on: "2026-03-01" } })
    expect(JSON.stringify(entry, (_, part: unknown) => (typeof part === "bigint" ? "" : part))).not.toContain(
      "cuffs",
    )
  })
})

describe("a baseline that somebody set", () => {
  const set = (fromMonth: string) =>
    setBaseline(store.prisma, {
      measureId: "bp-at-target",
      fromMonth,
      reason: "new cuffs",
      caller: lead,
      now,
    })

  test("takes the place of the one before, which stays on record", async () => {
    await set("2024-01")
    await set("2025-04")

    const standing = await listChosenBaselines(store.prisma)

    expect([...standing.values()]).toMatchObject([{ measureId: "bp-at-target", fromMonth: "2025-04" }])
    // 31 Oct 2026, 11:30 UTC is the next day in New Zealand, 13 hours ahead.
    expect([...standing.values()]).toMatchObject([{ madeOn: "2026-11-01" }])
    expect(await store.prisma.chartBaseline.count()).toBe(2)
  })

  test("stands once when two people set one at the same time", async () => {
    await Promise.all([set("2024-01"), set("2024-02"), set("2024-03")])

    expect((await listChosenBaselines(store.prisma)).size).toBe(1)
    expect(await store.prisma.chartBaseline.count({ where: { undoneAt: null } })).toBe(1)
    expect(await store.prisma.chartBaseline.count()).toBe(3)
  })

  test("is taken back once", async () => {
    await set("2024-01")
    const id = (await listChosenBaselines(store.prisma)).get("bp-at-target")?.id ?? 0

    expect(await undoBaseline(store.prisma, { id, caller: lead, now })).toBe(true)
    expect(await undoBaseline(store.prisma, { id, caller: lead, now })).toBe(false)
    expect((await listChosenBaselines(store.prisma)).size).toBe(0)
    expect(await entriesOf("baseline.undo")).toHaveLength(1)
  })
})

describe("a text that names a patient", () => {
  beforeAll(async () => {
    await importExtract({ url: store.url }, folder.dir, {
      patients: [
        "patient_id,given_name,family_name,birth_date,sex,registered_on",
        "MRN-77,Mary Ann,de la Cruz,1960-05-01,female,2020-01-01",
        "MRN-78,April,Brown,1961-05-01,female,2020-01-01",
      ],
    })
  })

  test.each(["Since mrn-77 was seen.", "Mary Ann de la Cruz, new cuff", "(Brown, April)"])(
    "is known by number or by both names: %s",
    async (text) => {
      expect(await namesSomebody(store.prisma, text)).toBe(true)
    },
  )

  test.each(["From April on the brown cuffs are used", "Mary Ann and Brown", "MRN-7"])(
    "is not taken from other words: %s",
    async (text) => {
      expect(await namesSomebody(store.prisma, text)).toBe(false)
    },
  )
})
