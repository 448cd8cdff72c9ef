import { afterAll, beforeAll, beforeEach, describe, expect, test, vi } from "vitest"
import * as actions from "../../../app/(clinic)/measures/[id]/chart-actions"
import { wholeClinic } from "../../../lib/access/scope"
import { snapshotMeta } from "../../../lib/engine/snapshot-meta"
import { openSiteInProcess, type SiteInProcess } from "../../helpers/site-in-process"

vi.mock("next/headers", async () => (await import("../../helpers/next-stand-ins")).nextHeaders)
vi.mock("next/cache", async () => (await import("../../helpers/next-stand-ins")).nextCache)

let site: SiteInProcess
const before = { problem: null, saved: 0 }

beforeAll(async () => {
  site = await openSiteInProcess()
})

beforeEach(async () => {
  await site.store.client.query("truncate chart_notes, chart_baselines")
  await site.signIn("clinic-lead")
})

afterAll(() => site.close())

function formOf(fields: Record<string, string>): FormData {
  const form = new FormData()
  for (const [name, value] of Object.entries(fields)) form.append(name, value)
  return form
}

const note = { measure: "bp-at-target", on: "2025-03-01", reach: "this", text: "Home cuffs are lent out" }
const add = (changed: Partial<typeof note>) => actions.addNote(before, formOf({ ...note, ...changed }))
const notes = () => site.store.prisma.chartNote.findMany()

describe("a note", () => {
  test("is kept for its measure, and the form told to be empty again", async () => {
    expect(await add({})).toEqual({ problem: null, saved: 1 })
    expect(await notes()).toMatchObject([{ measureId: "bp-at-target", text: note.text, undoneAt: null }])
  })

  test("is kept for all measures, the mean of sodium among them", async () => {
    await add({ measure: "diet-sodium", reach: "all" })

    expect(await notes()).toMatchObject([{ measureId: null }])
  })

  test.each([
    ["no day", { on: "" }, /day up to today/],
    ["a day to come", { on: "2199-01-01" }, /day up to today/],
    ["no words", { text: "  " }, /up to 200 characters/],
    ["too many words", { text: "a".repeat(201) }, /up to 200 characters/],
  ])("is not kept with %s", async (_words, changed, problem) => {
    expect((await add(changed)).problem).toMatch(problem)
    expect(await notes()).toEqual([])
  })

  test("is not kept when it names a patient", async () => {
    const one = await site.store.prisma.patientRecord.findFirstOrThrow({
      where: { givenName: { not: null }, familyName: { not: null } },
    })

    const answer = await add({ text: `Cuff changed after ${one.givenName} ${one.familyName}` })

    expect(answer.problem).toMatch(/names a patient/)
    expect(await notes()).toEqual([])
  })

  test("is written for no measure that there is not", async () => {
    await expect(add({ measure: "no-such-measure" })).rejects.toMatchObject({ code: "bad-request" })
  })

  test.each(["nephrologist", "administrator"] as const)("is not written by a %s", async (role) => {
    await site.signIn(role)

    await expect(add({})).rejects.toThrow()
    expect(await notes()).toEqual([])
  })

  test("is taken back", async () => {
    await add({})
    const [one] = await notes()

    await actions.undoNote(formOf({ id: String(one?.id) }))

    expect((await notes())[0]?.undoneAt).not.toBeNull()
  })
})

describe("a baseline", () => {
  const set = (from: string, reason = "new cuffs") =>
    actions.setOwnBaseline(before, formOf({ measure: "bp-at-target", from, reason }))
  const baselines = () => site.store.prisma.chartBaseline.findMany()

  async function monthAt(place: number): Promise<string> {
    return (await snapshotMeta(wholeClinic)).asOfs.at(place)?.slice(0, 7) ?? ""
  }

  test("is taken from twelve complete months of those shown", async () => {
    const from = await monthAt(0)

    expect(await set(from)).toEqual({ problem: null, saved: 1 })
    expect(await baselines()).toMatchObject([{ measureId: "bp-at-target", fromMonth: from }])
  })

  test("is not taken from fewer, from months not shown, or without a reason", async () => {
    expect((await set(await monthAt(-6))).problem).toMatch(/twelve complete months/)
    expect((await set("1999-01")).problem).toMatch(/twelve complete months/)
    expect((await set(await monthAt(0), " ")).problem).toMatch(/reason/)
    expect(await baselines()).toEqual([])
  })

  test("is taken back", async () => {
    await set(await monthAt(0))
    const [one] = await baselines()

    await actions.undoOwnBaseline(formOf({ id: String(one?.id) }))

    expect((await baselines())[0]?.undoneAt).not.toBeNull()
  })
})
