import { afterAll, beforeAll, describe, expect, test, vi } from "vitest"
import * as actions from "../../../app/(clinic)/outreach/case-actions"
import { nothingSent, type CaseSent } from "../../../app/(clinic)/outreach/case-sent"
import { prepareCase } from "../../helpers/prepare-case"
import { openSiteInProcess, type SiteInProcess } from "../../helpers/site-in-process"

vi.mock("next/headers", async () => (await import("../../helpers/next-stand-ins")).nextHeaders)
vi.mock("next/cache", async () => (await import("../../helpers/next-stand-ins")).nextCache)

let site: SiteInProcess

beforeAll(async () => {
  site = await openSiteInProcess()
})

afterAll(() => site.close())

type ActionName = keyof typeof actions

/** Brings a case to where an action has something to do, and sends the action's form with these fields. */
async function send(name: ActionName, fields: Record<string, string>, versionsBehind = 0): Promise<CaseSent> {
  const given = await prepareCase(site.store.prisma, name)
  const form = new FormData()
  form.append("id", given.id[0] ?? "")
  form.append("version", String(Number(given.version[0]) - versionsBehind))
  for (const [field, value] of Object.entries(fields)) form.append(field, value)
  return actions[name](nothingSent, form)
}

const lines = () => site.store.prisma.outreachEvent.count()
const lastLine = () => site.store.prisma.outreachEvent.findFirstOrThrow({ orderBy: { id: "desc" } })

describe("a form that lacks something", () => {
  test.each([
    ["recordAttempt", "How the person was contacted is needed.", { outcome: "no answer" }],
    ["recordAttempt", "What came of it is needed.", { channel: "phone" }],
    [
      "recordAttempt",
      "The day to try again is no day of the calendar.",
      { channel: "phone", outcome: "no answer", againOn: "2026-02-30" },
    ],
    ["snoozeCase", "A day of the calendar is needed.", { until: "soon" }],
    ["closeCase", "Why it is closed is needed.", { reason: "no reason left" }],
    ["noteOnCase", "The note is empty.", { note: " " }],
    ["noteOnCase", "A note has up to 1000 characters.", { note: "a".repeat(1001) }],
    ["acknowledgeCase", "Which clinician was told is needed.", {}],
  ] as const)(
    "of %s is told: %s Nothing is recorded, and what was typed is kept",
    async (name, problem, fields) => {
      await site.signIn("care-coordinator")
      const before = await lines()

      const answer = await send(name, fields)

      expect(answer).toMatchObject({ problem, saved: 0, typed: fields })
      expect(await lines()).toBe(before)
    },
  )
})

test("who does not treat acknowledges with the clinician who was told, who treats without", async () => {
  await site.signIn("care-coordinator")
  const told = await send("acknowledgeCase", { note: "The nephrologist on call" })
  const said = await lastLine()
  await site.signIn("nephrologist")
  const seen = await send("acknowledgeCase", {})

  expect([told, seen]).toMatchObject([
    { problem: null, saved: 1 },
    { problem: null, saved: 1 },
  ])
  expect(said).toMatchObject({ kind: "acknowledge", note: "The nephrologist on call" })
  expect(await lastLine()).toMatchObject({ kind: "acknowledge", note: null })
})

test("the later of two is told, with what was typed and the version to send again", async () => {
  await site.signIn("care-coordinator")
  const typed = { channel: "phone", outcome: "message left", note: "After five" }
  const before = await lines()

  const late = await send("recordAttempt", typed, 1)

  expect(late).toMatchObject({ saved: 0, typed })
  expect(late.problem).toMatch(/Nothing was recorded\. It is now: .*What was typed is kept/)
  expect(await lines()).toBe(before)
  const { version } = await site.store.prisma.outreachCase.findUniqueOrThrow({
    where: { id: Number(late.typed["id"]) },
  })
  expect(late.version).toBe(version)
})

test("a case is given to who works on cases, to nobody, and to no other account", async () => {
  await site.signIn("care-coordinator")
  const { userId: administrator } = await site.signIn("administrator")
  const { userId: nurse } = await site.signIn("nurse")
  await site.signIn("care-coordinator")

  expect(await send("assignCase", { to: administrator })).toMatchObject({
    problem: "This account does not work on cases.",
  })
  expect(await send("assignCase", { to: nurse })).toMatchObject({ problem: null, saved: 1 })
  expect(await lastLine()).toMatchObject({ kind: "assign", assignedTo: nurse })
  expect(await send("assignCase", { to: "" })).toMatchObject({ problem: null, saved: 1 })
  expect(await lastLine()).toMatchObject({ kind: "assign", assignedTo: null })
})

describe("taking the next one", () => {
  const take = () => {
    const form = new FormData()
    form.append("next", "yes")
    return actions.takeNextCase(nothingSent, form)
  }

  test("opens the page of the person, who is one's own then", async () => {
    const { userId } = await site.signIn("care-coordinator")

    await expect(take()).rejects.toMatchObject({
      digest: expect.stringMatching(/^NEXT_REDIRECT;.*\/outreach\/people\/[0-9a-f-]{36};/),
    })

    expect(await lastLine()).toMatchObject({ kind: "take", byId: userId })
  })

  test("is told when everybody is somebody's", async () => {
    const { userId } = await site.signIn("care-coordinator")
    await site.store.prisma.outreachCase.updateMany({ data: { assignedTo: userId } })

    expect(await take()).toMatchObject({
      problem: "Nobody is left to take: everybody is somebody's.",
      saved: 0,
    })
  })
})
