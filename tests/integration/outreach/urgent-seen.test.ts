import { afterAll, beforeAll, expect, test } from "vitest"
import { wholeClinic } from "../../../lib/access/scope"
import { urgentSeen } from "../../../lib/store/urgent-seen"
import { openStore, type TestStore } from "../../helpers/open-store"
import { tellHistories } from "../../helpers/told-histories"

const reason = "potassium-very-high"
const march = { scope: wholeClinic, from: "2026-03-01", to: "2026-03-31" }

let store: TestStore

beforeAll(async () => {
  store = await openStore()
  const told = [
    { person: "seen at once", reason, began: "2026-03-01", ended: "2026-03-10", acknowledged: "2026-03-02" },
    { person: "seen late", reason, began: "2026-03-01", acknowledged: "2026-03-05" },
    { person: "waits", reason, began: "2026-03-05", acknowledged: "no" },
    { person: "gone unseen", reason, began: "2026-03-05", ended: "2026-03-08", acknowledged: "no" },
    { person: "seen too late", reason, began: "2026-03-05", ended: "2026-03-07", acknowledged: "2026-03-09" },
    { person: "taken back", reason, began: "2026-03-06", ended: "2026-03-12", acknowledged: "2026-03-06" },
    { person: "earlier", reason, began: "2026-02-01", ended: "2026-02-02", acknowledged: "no" },
    { person: "not urgent", reason: "above-target", began: "2026-03-05", ended: "2026-03-08" },
  ]
  await tellHistories(store, { told, lookedOn: "2026-03-31" })
  const undone = await store.prisma.outreachEvent.findFirstOrThrow({ where: { patientId: "taken back" } })
  const { caseId, patientId, fromState, toState, round, onDay, at, byName } = undone
  await store.prisma.outreachEvent.create({
    data: {
      ...{ caseId, patientId, fromState, toState, round, onDay, at, byName },
      ...{ kind: "take back", undoesId: undone.id },
    },
  })
})

afterAll(() => store.close())

test("what was urgent was seen while it held, waits, or was gone before anybody saw it", async () => {
  const seen = await urgentSeen(store.prisma, { ...march, limit: 10 })

  expect(seen).toMatchObject({ began: 6, seen: 2, seenSoon: 1, unseen: 1, missed: 3 })
  expect(seen.latestMissed.map((one) => [one.beganOn, one.endedOn])).toEqual([
    ["2026-03-06", "2026-03-12"],
    ["2026-03-05", "2026-03-08"],
    ["2026-03-05", "2026-03-07"],
  ])
})

test("the latest are listed, and all are counted", async () => {
  const { missed, latestMissed } = await urgentSeen(store.prisma, { ...march, limit: 1 })

  expect(missed).toBe(3)
  expect(latestMissed.map((one) => one.endedOn)).toEqual(["2026-03-12"])
})
