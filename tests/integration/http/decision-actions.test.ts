import { afterAll, beforeAll, beforeEach, describe, expect, test, vi } from "vitest"
import { decide, undo } from "../../../app/(clinic)/decisions/decision-actions"
import { nothingSent } from "../../../app/(clinic)/decisions/decision-sent"
import { decisionKinds, decisionReasons } from "../../../lib/domain/clinician-decisions"
import { startRefresh } from "../../../lib/jobs/refresh-process"
import { openSiteInProcess, type SiteInProcess } from "../../helpers/site-in-process"

vi.mock("next/headers", async () => (await import("../../helpers/next-stand-ins")).nextHeaders)
vi.mock("next/cache", async () => (await import("../../helpers/next-stand-ins")).nextCache)
vi.mock("../../../lib/jobs/refresh-process", () => ({ startRefresh: vi.fn() }))

let site: SiteInProcess
let publicId: string

beforeAll(async () => {
  site = await openSiteInProcess()
  const isKnown = { records: { some: { endedAt: null } } }
  publicId = (await site.store.prisma.patient.findFirstOrThrow({ where: isKnown })).publicId
})

afterAll(() => site.close())

beforeEach(async () => {
  await site.store.prisma.clinicianDecision.deleteMany()
  await site.signIn("nephrologist")
})

function formOf(fields: Record<string, string>): FormData {
  const form = new FormData()
  for (const [name, value] of Object.entries({ publicId, ...fields })) form.append(name, value)
  return form
}

const send = (fields: Record<string, string>) =>
  decide(nothingSent, formOf({ topic: "pressure", shown: "", until: "", note: "", ...fields }))
const takeBack = (id: number) => undo(nothingSent, formOf({ id: String(id) }))
const kept = () => site.store.prisma.clinicianDecision.findMany({ orderBy: { id: "asc" } })
const inAMonth = new Date(Date.now() + 30 * 86_400_000).toISOString().slice(0, 10)

describe("a decision sent", () => {
  test.each(decisionKinds)(
    "as %s is on record with its reason, and the figures are asked for anew",
    async (kind) => {
      vi.mocked(startRefresh).mockClear()
      const [reason = ""] = decisionReasons[kind]
      const answer = await send({ why: `${kind}|${reason}`, until: kind === "deferred" ? inAMonth : "" })

      expect(answer).toMatchObject({ problem: null, saved: 1, typed: {} })
      expect(await kept()).toMatchObject([{ topic: "pressure", kind, reason, madeBy: "Test Person" }])
      expect(startRefresh).toHaveBeenCalledOnce()
    },
  )

  test.each([
    ["why", "What was decided is needed.", { why: "" }],
    ["why", "What was decided is needed.", { why: "not tolerated|cost" }],
    ["until", "The day is no day of the calendar.", { why: "not tolerated|cough", until: "2027-02-30" }],
    ["until", "Until when it is deferred is needed.", { why: "deferred|acute illness" }],
    ["until", "The day has to be later than today.", { why: "not tolerated|cough", until: "2020-01-01" }],
    [
      "until",
      "The day may be five years away at most; somebody looks again then.",
      { why: "not tolerated|cough", until: "2999-01-01" },
    ],
    ["note", "“Other” needs a note that says what.", { why: "not tolerated|other", note: " " }],
    ["note", "A note has up to 1000 characters.", { why: "not tolerated|cough", note: "a".repeat(1001) }],
  ] as const)("is told at the field %s: %s Nothing is recorded", async (field, problem, fields) => {
    const answer = await send(fields)

    expect(answer).toMatchObject({ problem, field, saved: 0, typed: fields })
    expect(await kept()).toEqual([])
  })

  test("after somebody else's is told who decided what, and is recorded when it is sent again", async () => {
    await send({ why: "not tolerated|cough" })
    const typed = { why: "patient declined|cost", note: "Asked twice" }
    const late = await send(typed)

    expect(late).toMatchObject({ saved: 0, typed })
    expect(late.problem).toMatch(
      /^Meanwhile Test Person decided, .*: Not tolerated: cough\. Nothing was recorded\./,
    )
    const again = await send({ ...typed, shown: String(late.shownId) })
    expect(again).toMatchObject({ problem: null, saved: 1 })
    expect(await kept()).toMatchObject([
      { kind: "not tolerated", undoneBy: "Test Person" },
      { kind: "patient declined", note: "Asked twice", undoneBy: null },
    ])
  })

  test("after the one shown was taken back is told so", async () => {
    await send({ why: "not tolerated|cough" })
    const [made] = await kept()
    await takeBack(made?.id ?? 0)
    const late = await send({ why: "patient declined|cost", shown: String(made?.id) })

    expect(late).toMatchObject({ saved: 0, shownId: null })
    expect(late.problem).toMatch(/^The decision shown was taken back meanwhile\./)
  })
})

describe("who may", () => {
  test("decide about diet are dietitians, too; about drugs and pressure only who treats", async () => {
    await site.signIn("dietitian")

    expect(await send({ topic: "diet", why: "patient declined|other", note: "Not now" })).toMatchObject({
      problem: null,
    })
    expect(await send({ why: "not tolerated|cough" })).toMatchObject({
      problem: "This account does not decide about this.",
    })
    expect((await kept()).map((one) => one.topic)).toEqual(["diet"])
  })

  test("take one back is told by its topic, not by what the form says", async () => {
    await send({ why: "not tolerated|cough" })
    const [made] = await kept()
    await site.signIn("dietitian")

    expect(await undo(nothingSent, formOf({ id: String(made?.id), topic: "diet" }))).toMatchObject({
      problem: "This account does not decide about this.",
    })
    await site.signIn("nephrologist")
    expect(await takeBack(made?.id ?? 0)).toMatchObject({ problem: null, saved: 1 })
    expect(await takeBack(made?.id ?? 0)).toMatchObject({
      problem: "It was taken back or replaced meanwhile.",
    })
    expect(await kept()).toMatchObject([{ undoneBy: "Test Person", replacedById: null }])
  })
})
