import fc from "fast-check"
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest"
import { z } from "zod"
import { siteKey } from "../../lib/store/secrets"
import { openFalseProvider, type FalseProvider } from "../helpers/false-provider"
import { routes } from "../fixtures/authorisation"
import { expectPlainWords, forInputs } from "../helpers/fuzz"
import { hostileSearch, hostileText, listNames, mostly, queryOf, wellFormed } from "../helpers/hostile"
import { sent } from "../helpers/next-stand-ins"
import { openSiteInProcess, ownHeaders, type SiteInProcess } from "../helpers/site-in-process"

vi.mock("next/headers", async () => (await import("../helpers/next-stand-ins")).nextHeaders)
vi.mock("node:child_process", async (original) =>
  (await import("../helpers/next-stand-ins")).withoutProcesses(original<object>),
)

let site: SiteInProcess

beforeAll(async () => {
  site = await openSiteInProcess()
})

afterAll(() => site.close())

const search = hostileSearch(listNames, [
  "2025-08",
  "not-met",
  "met",
  "2",
  "S-01",
  "",
  "female",
  "appeared",
]).map(queryOf)
const auditSearch = hostileSearch(
  ["from", "to", "actor", "action", "outcome", "patient", "before"],
  [
    "2025-08-01",
    "0000-01-01",
    "command:root",
    "patient.open",
    "done",
    "5",
    "00000000-0000-4000-8000-000000000000",
  ],
).map(queryOf)
const emptyLogSql = `
alter table audit_entries disable trigger audit_entries_are_kept;
alter table audit_people disable trigger audit_people_are_kept;
truncate audit_entries, audit_people;
alter table audit_entries enable always trigger audit_entries_are_kept;
alter table audit_people enable always trigger audit_people_are_kept`
const Refusal = z.strictObject({ code: z.string(), message: z.string() })

test("every route is asked below", () => {
  expect(Object.keys(routes).sort()).toEqual(
    [
      "GET /api/audit",
      ...["GET /api/imports/[id]/rejects", "GET /api/measures/[id]/people", "GET /api/tables/patients"],
      ...["GET /api/months/[month]/documents", "GET /api/outreach/letters"],
      ...["GET /api/outreach/cases", "GET /api/outreach/visits"],
      ...["GET /provider/leave", "GET /provider/return", "POST /api/imports", "POST /api/session"],
      "POST /api/patients/[publicId]/record",
    ].sort(),
  )
})

describe("any address and body is answered, or refused with an expected code:", () => {
  // First: every other answer adds entries, of which each of these reads all; and its own, so that they are taken away at times.
  test("the entries of the audit log", async () => {
    const { GET } = await import("../../app/api/audit/route")
    await site.signIn("auditor")
    let answers = 0
    await forInputs(auditSearch, async (query) => {
      answers += 1
      if (answers % 250 === 0) await site.store.client.query(emptyLogSql)
      const answer = await ask(GET, { address: `/api/audit?${query}`, params: {} })
      await expectSound(answer, [])
    })
  })

  test("the people of a measure", async () => {
    const { GET } = await import("../../app/api/measures/[id]/people/route")
    await site.signIn("clinic-lead")
    await forInputs(
      fc.tuple(mostly("bp-at-target", "diet-sodium", "kidney-tests-in-diabetes"), search),
      async ([id, query]) => {
        const answer = await ask(GET, { address: `/api/measures/x/people?${query}`, params: { id } })
        await expectSound(answer, ["not-found"])
      },
    )
  })

  test("the documents of a month", async () => {
    const { GET } = await import("../../app/api/months/[month]/documents/route")
    await site.signIn("clinic-lead")
    const query = hostileSearch(["format", "people"], ["pdf", "xlsx", "csv", "fhir", "yes", "no"]).map(
      queryOf,
    )
    await forInputs(fc.tuple(mostly("2025-08", "2025-07"), query), async ([month, asked]) => {
      const answer = await ask(GET, { address: `/api/months/x/documents?${asked}`, params: { month } })
      await expectSound(answer, ["not-found", "bad-request", "too-many-requests"])
    })
  })

  test("the visit lists of a day", async () => {
    const { GET } = await import("../../app/api/outreach/visits/route")
    await site.signIn("care-coordinator")
    const days = hostileSearch(["on", "clinician"], ["2025-10-06", "2025-02-30", "S-01", "not-named"])
    await forInputs(days.map(queryOf), async (query) => {
      const answer = await ask(GET, { address: `/api/outreach/visits?${query}`, params: {} })
      await expectSound(answer, [])
    })
  })

  test("the list of people to contact", async () => {
    const { GET } = await import("../../app/api/outreach/cases/route")
    await site.signIn("care-coordinator")
    const views = hostileSearch(
      ["format", "show", "reason", "site", "clinician", "whose", "language", "after"],
      ["csv", "xlsx", "closed", "urgent", "above-target", "mine", "nobody", "2"],
    )
    await forInputs(views.map(queryOf), async (query) => {
      const answer = await ask(GET, { address: `/api/outreach/cases?${query}`, params: {} })
      await expectSound(answer, ["bad-request"])
    })
  })

  test("the letters that are next", async () => {
    const { GET } = await import("../../app/api/outreach/letters/route")
    await site.signIn("care-coordinator")
    const chosen = hostileSearch(["format", "letters"], ["csv", "xlsx", "1,2", "1,,2", "0", "1e3"])
    await forInputs(chosen.map(queryOf), async (query) => {
      const answer = await ask(GET, { address: `/api/outreach/letters?${query}`, params: {} })
      await expectSound(answer, ["bad-request"])
    })
  })

  test("the rejected rows of an import", async () => {
    const { GET } = await import("../../app/api/imports/[id]/rejects/route")
    await site.signIn("clinic-lead")
    await forInputs(fc.tuple(mostly("1", "2"), search), async ([id, query]) => {
      const answer = await ask(GET, { address: `/api/imports/1/rejects?${query}`, params: { id } })
      await expectSound(answer, ["not-found"])
    })
  })

  test("the Patients table", async () => {
    const { GET } = await import("../../app/api/tables/patients/route")
    await site.signIn("clinic-lead")
    await forInputs(search, async (query) => {
      const answer = await ask(GET, { address: `/api/tables/patients?${query}`, params: {} })
      await expectSound(answer, [])
    })
  })

  test("the record of a patient", async () => {
    const { POST } = await import("../../app/api/patients/[publicId]/record/route")
    await site.signIn("clinic-lead")
    const known = await site.store.prisma.patient.findFirstOrThrow()
    const fields = fc.tuple(mostly("purpose"), mostly("Asked for by the patient"))
    await forInputs(fc.tuple(mostly(known.publicId), fields), async ([publicId, [name, purpose]]) => {
      const body = new URLSearchParams({ [name]: wellFormed(purpose) })
      const asked = {
        address: "/api/patients/x/record",
        params: { publicId },
        init: { method: "POST", body },
      }
      await expectSound(await ask(POST, asked), ["bad-request", "not-found"])
    })
  })

  test("a sign of life, with any cookie", async () => {
    const { POST } = await import("../../app/api/session/route")
    await forInputs(fc.tuple(hostileText, hostileText), async ([token, body]) => {
      sent.cookies.set("filtrate", token)
      const answer = await ask(POST, {
        address: "/api/session",
        params: {},
        init: { method: "POST", body: wellFormed(body) },
      })
      await expectSound(answer, ["not-signed-in"])
    })
  })

  test("an upload of any parts", async () => {
    const { POST } = await import("../../app/api/imports/route")
    await site.signIn("administrator")
    await forInputs(upload, async ({ type, body }) => {
      const init = { method: "POST", body: Buffer.from(body), headers: { "content-type": type } }
      const answer = await ask(POST, { address: "/api/imports", params: {}, init })
      await expectSound(answer, ["bad-request", "import-running"])
    })
  })
})

describe("whatever is said on the way to the clinic's provider and back leads to the provider or the sign-in:", () => {
  let provider: FalseProvider
  beforeAll(async () => {
    provider = await openFalseProvider()
    vi.stubEnv("FILTRATE_OIDC_ISSUER", provider.issuer)
    vi.stubEnv("FILTRATE_OIDC_CLIENT_ID", "filtrate")
    vi.stubEnv("FILTRATE_OIDC_CLIENT_SECRET", "not a secret")
    vi.stubEnv("FILTRATE_OIDC_ROLE_CLAIM", "groups")
    vi.stubEnv("FILTRATE_OIDC_ROLE_MAP", "nurses=nurse")
  })
  afterAll(() => provider.close())

  test("leaving", async () => {
    const { GET } = await import("../../app/(door)/provider/leave/route")
    await forInputs(hostileSearch(["to", "state"], ["users", "account"]).map(queryOf), async (query) => {
      const answer = await ask(GET, { address: `/provider/leave?${query}`, params: {} })
      expect(answer.headers.get("location")?.startsWith(`${provider.issuer}/authorize?`)).toBe(true)
    })
  })

  test("coming back, with any cookie, any address and any tokens", async () => {
    const { GET } = await import("../../app/(door)/provider/return/route")
    const { leaveForProvider } = await import("../../lib/auth/provider")
    const { requireProvider, returnAddress } = await import("../../app/_http/provider")
    const key = siteKey(site.dataDir)
    const leaving = { redirectUri: returnAddress(), key, now: new Date() }
    const { address, sealed } = await leaveForProvider(requireProvider(), leaving)
    const state = new URL(address).searchParams.get("state") ?? ""
    const said = hostileSearch(["code", "state", "iss", "error"], [state, "a-code", provider.issuer]).map(
      queryOf,
    )
    const good = `code=a-code&state=${state}&iss=${encodeURIComponent(provider.issuer)}`
    const query = fc.oneof(fc.constant(good), said)
    await forInputs(
      fc.tuple(query, mostly(sealed), mostly("{}", '{"token_type":"bearer"}')),
      async ([words, cookie, tokens]) => {
        sent.cookies.set("filtrate-provider", cookie)
        provider.tokens = tokens
        const answer = await ask(GET, { address: `/provider/return?${words}`, params: {} })
        expect(answer.headers.get("location")).toBe("http://localhost:3000/sign-in?provider=failed")
      },
    )
  })
})

const disposition = fc
  .tuple(
    mostly("extract", "full", "trial"),
    fc.option(mostly("readings.csv", "lowmoor.zip", "../x.csv", ".csv")),
  )
  .map(
    ([name, file]) =>
      `content-disposition: form-data; name="${name}"${file === null ? "" : `; filename="${file}"`}`,
  )
const part = fc
  .tuple(disposition, mostly("content-type: text/csv", ""), mostly("a,b\n1,2", "on"))
  .map(
    ([head, type, content]) => `--edge\r\n${head}\r\n${type}${type === "" ? "" : "\r\n"}\r\n${content}\r\n`,
  )
const upload = fc.record({
  type: mostly("multipart/form-data; boundary=edge").map((text) => text.replaceAll(/[^\x20-\x7e]/g, "")),
  body: fc
    .tuple(fc.array(part, { maxLength: 4 }), mostly("--edge--\r\n"))
    .map(([parts, end]) => wellFormed(parts.join("") + end)),
})

async function ask<Params>(
  handler: (request: Request, context: { params: Promise<Params> }) => Promise<Response>,
  asked: { address: string; params: Params; init?: RequestInit },
): Promise<Response> {
  globalThis.filtrateTurns = undefined
  const headers = new Headers({ ...ownHeaders, ...Object.fromEntries(new Headers(asked.init?.headers)) })
  const request = new Request(`http://localhost:3000${asked.address}`, { ...asked.init, headers })
  return handler(request, { params: Promise.resolve(asked.params) })
}

/** Read to its end: a file that breaks off on its way would be no answer. */
async function expectSound(answer: Response, codes: readonly string[]): Promise<void> {
  const text = await answer.text()
  if (answer.status < 400) {
    expect(answer.headers.get("content-disposition") ?? 'attachment; filename="a.csv"').toMatch(
      /^attachment; filename="[\w.-]+"$/,
    )
    return
  }
  const refusal = Refusal.parse(JSON.parse(text))
  expect(codes).toContain(refusal.code)
  expectPlainWords(refusal.message)
}
