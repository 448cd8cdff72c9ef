import { afterAll, beforeAll, beforeEach, expect, test } from "vitest"
import { defaultSettings } from "../../../lib/domain/settings"
import { listSettingChanges, readSettings, saveSettings } from "../../../lib/store/settings"
import { strangerActor } from "../../../lib/store/audit-actors"
import { openStore, type TestStore } from "../../helpers/open-store"

let store: TestStore
const now = new Date("2026-10-31T12:00:00Z")
const bySite = { by: strangerActor(null, "Ada Lead"), reason: "the board decided", now }

beforeAll(async () => {
  store = await openStore()
  await store.prisma.clinic.create({ data: { id: 1, name: "Kidney clinic", timeZone: "UTC" } })
})

beforeEach(async () => {
  await store.client.query("truncate settings, setting_changes restart identity")
})

afterAll(() => store.close())

test("what was never set stands at its default", async () => {
  expect(await readSettings(store.prisma)).toEqual(defaultSettings)
})

test("keeps who changed what, when, why, and what stood there before", async () => {
  const texts = { "bp.systolicTarget": "120", "drugs.several": "3" }

  const saved = await saveSettings(store.prisma, { ...bySite, texts })

  expect(saved).toMatchObject({ status: "saved", changed: ["bp.systolicTarget"] })
  expect(await readSettings(store.prisma)).toEqual({ ...defaultSettings, "bp.systolicTarget": 120 })
  expect(await listSettingChanges(store.prisma)).toEqual([
    {
      id: 1,
      madeAt: now,
      origin: "site",
      madeBy: "Ada Lead",
      reason: "the board decided",
      before: { "bp.systolicTarget": 130 },
      after: { "bp.systolicTarget": 120 },
    },
  ])
})

test("a value may be taken away again", async () => {
  const own = { "bp.homeSystolicTarget": "125", "bp.homeDiastolicTarget": "78" }
  await saveSettings(store.prisma, { ...bySite, texts: own })

  const saved = await saveSettings(store.prisma, {
    ...bySite,
    texts: { "bp.homeSystolicTarget": "", "bp.homeDiastolicTarget": "" },
  })

  expect(saved.status).toBe("saved")
  expect(await readSettings(store.prisma)).toEqual(defaultSettings)
  expect((await listSettingChanges(store.prisma))[0]).toMatchObject({
    before: { "bp.homeSystolicTarget": 125, "bp.homeDiastolicTarget": 78 },
    after: { "bp.homeSystolicTarget": null, "bp.homeDiastolicTarget": null },
  })
})

test("what cannot be used leaves everything as it was", async () => {
  const texts = { "bp.systolicTarget": "120", "bp.diastolicTarget": "20" }

  const saved = await saveSettings(store.prisma, { ...bySite, texts })

  expect(saved).toMatchObject({ status: "refused", problems: [{ key: "bp.diastolicTarget" }] })
  expect(await readSettings(store.prisma)).toEqual(defaultSettings)
  expect(await listSettingChanges(store.prisma)).toEqual([])
})

test("a value that stands there already is no change", async () => {
  expect(await saveSettings(store.prisma, { ...bySite, texts: { "drugs.several": "3" } })).toEqual({
    status: "unchanged",
  })
  expect(await listSettingChanges(store.prisma)).toEqual([])
})

test("two who save at once come one after the other, each with what stood before", async () => {
  const save = (value: string) => saveSettings(store.prisma, { ...bySite, texts: { "drugs.several": value } })

  await Promise.all([save("4"), save("5")])

  const [later, earlier] = await listSettingChanges(store.prisma)
  expect(earlier?.before).toEqual({ "drugs.several": 3 })
  expect(later?.before).toEqual(earlier?.after)
  expect((await readSettings(store.prisma))["drugs.several"]).toBe(later?.after["drugs.several"])
})
