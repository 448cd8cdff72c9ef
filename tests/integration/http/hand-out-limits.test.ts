import { afterAll, beforeAll, beforeEach, describe, expect, test, vi } from "vitest"
import { openSiteInProcess, ownHeaders, type SiteInProcess } from "../../helpers/site-in-process"

vi.mock("next/headers", async () => (await import("../../helpers/next-stand-ins")).nextHeaders)
vi.mock("node:child_process", async (original) =>
  (await import("../../helpers/next-stand-ins")).withoutProcesses(original<object>),
)

let site: SiteInProcess

beforeAll(async () => {
  site = await openSiteInProcess()
})

afterAll(() => site.close())

beforeEach(() => {
  globalThis.filtrateTurns = undefined
})

async function askPeople(): Promise<Response> {
  const { GET } = await import("../../../app/api/measures/[id]/people/route")
  return GET(requestTo("/api/measures/bp-at-target/people"), {
    params: Promise.resolve({ id: "bp-at-target" }),
  })
}

async function askTable(): Promise<Response> {
  const { GET } = await import("../../../app/api/tables/patients/route")
  return GET(requestTo("/api/tables/patients"), {})
}

function requestTo(address: string): Request {
  return new Request(`http://localhost:3000${address}`, { headers: ownHeaders })
}

async function provenBefore(minutes: number): Promise<void> {
  await site.store.prisma.session.updateMany({ data: { provenAt: new Date(Date.now() - minutes * 60_000) } })
}

test("so many files an hour are given out to a person, the next is told when to come again, and others are not held up", async () => {
  vi.stubEnv("FILTRATE_EXPORTS_PER_HOUR", "3")
  await site.signIn("clinic-lead")
  const taken = [await askPeople(), await askPeople(), await askPeople()]

  const refused = await askPeople()
  await site.signIn("nephrologist")
  const another = await askPeople()

  expect(taken.map((answer) => answer.status)).toEqual([200, 200, 200])
  expect(refused.status).toBe(429)
  expect(Number(refused.headers.get("retry-after"))).toBeGreaterThan(60)
  expect(await refused.json()).toEqual({
    code: "too-many-requests",
    message: expect.stringMatching(
      /^More files than are given out in so short a time\. The next is there in \d+ min\.$/,
    ),
  })
  expect(another.status).toBe(200)
})

test("the whole panel is read sixty times a minute at most", async () => {
  await site.signIn("nurse")
  // Turns come back as time goes by.
  const clock = vi.spyOn(Date, "now").mockReturnValue(Date.now())
  const statuses: number[] = []
  for (let reading = 0; reading < 61; reading += 1) statuses.push((await askTable()).status)

  clock.mockRestore()

  expect(statuses.slice(0, 60)).toEqual(Array.from({ length: 60 }, () => 200))
  expect(statuses.at(-1)).toBe(429)
}, 120_000)

describe("a list of people as a file", () => {
  test("is given to who has shown who they are within the hour", async () => {
    await site.signIn("clinic-lead")
    await provenBefore(59)

    const answer = await askPeople()

    expect(answer.status).toBe(200)
    expect(answer.headers.get("content-disposition")).toMatch(
      /^attachment; filename="bp-at-target-\d{4}-\d\d-\d\d\.csv"$/,
    )
  })

  test("asks for a proof when the last is older, and hands nothing out", async () => {
    await site.signIn("clinic-lead")
    await provenBefore(61)

    const answer = await askPeople()

    expect(answer.status).toBe(303)
    expect(answer.headers.get("location")).toBe("/prove?to=measure.bp-at-target")
    expect(await answer.text()).toBe("")
  })

  test("of the audit log's entries likewise", async () => {
    const { GET } = await import("../../../app/api/audit/route")
    await site.signIn("auditor")
    const given = await GET(requestTo("/api/audit"), {})
    await provenBefore(61)

    const asked = await GET(requestTo("/api/audit"), {})

    expect(given.status).toBe(200)
    expect(asked.headers.get("location")).toBe("/prove?to=audit")
  })

  test("of rejected rows likewise", async () => {
    const { GET } = await import("../../../app/api/imports/[id]/rejects/route")
    await site.signIn("clinic-lead")
    await provenBefore(61)

    const answer = await GET(requestTo("/api/imports/1/rejects"), { params: Promise.resolve({ id: "1" }) })

    expect(answer.headers.get("location")).toBe("/prove?to=imports")
  })
})
