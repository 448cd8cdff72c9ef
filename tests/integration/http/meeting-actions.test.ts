import { afterAll, beforeAll, beforeEach, expect, test, vi } from "vitest"
import * as actions from "../../../app/(clinic)/measures/[id]/meeting-actions"
import { openSiteInProcess, type SiteInProcess } from "../../helpers/site-in-process"

vi.mock("next/headers", async () => (await import("../../helpers/next-stand-ins")).nextHeaders)
vi.mock("next/cache", async () => (await import("../../helpers/next-stand-ins")).nextCache)

let site: SiteInProcess
const before = { problem: null, saved: 0 }
const changed = "It was changed in the meantime. The list shows how it stands now."

beforeAll(async () => {
  site = await openSiteInProcess()
})

beforeEach(() => site.store.client.query("truncate measure_actions"))

afterAll(() => site.close())

function formOf(fields: Record<string, string>): FormData {
  const form = new FormData()
  for (const [name, value] of Object.entries(fields)) form.append(name, value)
  return form
}

async function writtenDown(): Promise<string> {
  const form = { measure: "acr-tested", month: "2025-08", kind: "action", text: "Order the urine", due: "" }
  expect(await actions.writeDown(before, formOf({ ...form, owner: "The nurses" }))).toMatchObject({
    saved: 1,
  })
  const { id } = await site.store.prisma.measureAction.findFirstOrThrow()
  return String(id)
}

const end = (id: string, version: string) =>
  actions.endOneOfLog(before, formOf({ id, version, state: "done", outcome: "" }))

test("the later of two who close the same is told that it was changed, and nothing else", async () => {
  await site.signIn("clinic-lead")
  const id = await writtenDown()

  expect(await end(id, "1")).toEqual({ problem: null, saved: 1 })
  expect(await end(id, "1")).toEqual({ problem: changed, saved: 0 })
  expect(await actions.openOneOfLog(before, formOf({ id, version: "1" }))).toEqual({
    ...{ problem: changed, saved: 0 },
  })
})

test("whoever it was not given to is told whose it is to close, and nothing else", async () => {
  await site.signIn("clinic-lead")
  const id = await writtenDown()
  await site.signIn("nurse")

  expect(await end(id, "1")).toEqual({
    problem: "Only the person it was given to, or a clinic lead, closes it or opens it again.",
    saved: 0,
  })
})
