import { afterAll, beforeAll, expect, test } from "vitest"
import { wholeClinic } from "../../../lib/access/scope"
import { snapshotMeta } from "../../../lib/engine/snapshot-meta"
import { closeMonth } from "../../../lib/jobs/close-month"
import { commandActor } from "../../../lib/store/audit-actors"
import { removeDrugNameMapping, saveDrugNameMapping } from "../../../lib/store/drug-name-mappings"
import { listClosings } from "../../../lib/store/month-closings"
import { closedDay, openClosingClinic, type ClosingClinic } from "../../helpers/closing-clinic"

let clinic: ClosingClinic

beforeAll(async () => {
  clinic = await openClosingClinic()
})

afterAll(() => clinic.close())

test("a month is not closed while an import is storing", async () => {
  const working = await clinic.store.prisma.import.create({
    data: { source: "x", status: "running", asOf: new Date("2026-01-31") },
  })
  expect(await clinic.closeJanuary()).toBe("not of now")
  await clinic.store.prisma.import.delete({ where: { id: working.id } })
})

test("a month is not closed with figures from before an import, a setting or the meaning of a drug text", async () => {
  const mapping = { text: "zzcustom", ingredients: ["losartan"], isIgnored: false, by: commandActor() }
  const changes = [
    () => clinic.bringIn({ visits: ["visit_id,patient_id,started_on,kind", "V8,P1,2026-01-13,office"] }),
    () => clinic.set({ "bp.systolicTarget": "120" }),
    () => saveDrugNameMapping(clinic.store.prisma, mapping),
    () => removeDrugNameMapping(clinic.store.prisma, mapping),
  ]
  for (const change of changes) {
    await change()
    expect(await clinic.closeJanuary()).toBe("not of now")
    await clinic.rebuild()
  }
})

test("a month is not closed with other figures than those that were shown, nor before it is over", async () => {
  const { builtAt } = await snapshotMeta(wholeClinic)
  const about = { client: clinic.store.prisma, dataDir: clinic.dataDir, by: commandActor(), note: "" }
  const close = (asOf: string, shown: string) =>
    closeMonth({ ...about, asOf, builtAt: shown, now: new Date() })

  expect(await close(closedDay, "2026-02-01T00:00:00.000Z")).toBe("not of now")
  expect(await close("2026-01-30", builtAt)).toBe("not complete")
  expect(await close("2026-02-28", builtAt)).toBe("not complete")
  expect(await listClosings(clinic.store.prisma)).toEqual([])
  expect(await close("2025-12-31", builtAt)).toBe("closed")
  expect(await close(closedDay, builtAt)).toBe("closed")
})
