import fc from "fast-check"
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest"
import { newToken } from "../../lib/access/tokens"
import { permissions } from "../../lib/access/permissions"
import type { Role } from "../../lib/access/roles"
import { AppError } from "../../lib/errors"
import { makeLink } from "../../lib/store/one-time-links"
import { actionFields, type Known } from "../fixtures/action-fields"
import { actions, pages, type Needs } from "../fixtures/authorisation"
import { expectPlainWords, forInputs } from "../helpers/fuzz"
import { hostileText, mostly, wellFormed } from "../helpers/hostile"
import { giveFactor, openSiteInProcess, type SiteInProcess } from "../helpers/site-in-process"

vi.mock("next/headers", async () => (await import("../helpers/next-stand-ins")).nextHeaders)
vi.mock("next/cache", async () => (await import("../helpers/next-stand-ins")).nextCache)
vi.mock("node:child_process", async (original) =>
  (await import("../helpers/next-stand-ins")).withoutProcesses(original<object>),
)

let site: SiteInProcess
let known: Known
const placeholder: Known = { sessionId: "", userId: "", emergencyId: "", linkToken: "", sealedSeed: "" }

beforeAll(async () => {
  site = await openSiteInProcess()
  const user = await site.store.prisma.user.create({
    data: { userName: "somebody", name: "Some Body", roles: ["nurse"] },
  })
  const emergency = await site.store.prisma.emergencyAccess.create({
    data: { userId: user.id, reason: "Collapsed", startsAt: new Date(), endsAt: new Date() },
  })
  const emergencyId = String(emergency.id)
  known = { sessionId: "0".repeat(64), userId: user.id, emergencyId, linkToken: newToken(), sealedSeed: "" }
})

afterAll(() => site.close())

const withForm = Object.entries(actions).filter(([, { takesNoForm }]) => !takesNoForm)

test("every action that takes a form has its fields listed", () => {
  expect(Object.keys(actionFields(placeholder)).sort()).toEqual(withForm.map(([name]) => name).sort())
})

describe.each(withForm)("the action %s", (name, { needs }) => {
  test("answers any form with words, a screen of the site or a refusal", async () => {
    const run = await actionOf(name)
    const { userId, sealedSeed } = await site.signIn(
      roleFor(needs),
      needs === "half signed in" ? "factor" : "full",
    )
    if (name.endsWith("giveCode")) await giveFactor(site, userId)
    const fields = actionFields({ ...known, sealedSeed })[name] ?? {}

    await forInputs(formOf(fields), async (entries) => {
      const link = await freshen(name)
      const form = new FormData()
      for (const [field, value] of entries) form.append(field, value === known.linkToken ? link : value)
      await expectSoundOutcome(
        () => run(form),
        entries.flat().filter((one) => typeof one === "string"),
      )
    })
  })
})

type Entry = [string, string | Blob]

/** The fields with good and bad values, some missing or sent twice, a file in the place of a text, and names of no field. */
function formOf(fields: Readonly<Record<string, readonly string[]>>): fc.Arbitrary<Entry[]> {
  const file = fc.constant(new Blob(["a,b\n"], { type: "text/csv" }))
  const known = Object.entries(fields).map(([name, good]) =>
    fc
      .array(fc.oneof({ weight: 12, arbitrary: mostly(...good) }, { weight: 1, arbitrary: file }), {
        minLength: 1,
        maxLength: 2,
      })
      .map((values): Entry[] => values.map((value) => [name, value])),
  )
  const strange = fc.tuple(hostileText, hostileText).map((entry): Entry[] => [entry])
  const all = fc.tuple(
    ...known.map((one) => fc.option(one, { freq: 9, nil: [] })),
    fc.option(strange, { nil: [] }),
  )
  return all.map((parts) => parts.flat())
}

/** Renews what an earlier form may have used up; answers a link that is good. */
async function freshen(name: string): Promise<string> {
  if (/giveCode|signInWithPassword/.test(name)) await site.store.client.query("delete from sign_in_failures")
  if (!name.endsWith("usePasswordLink")) return known.linkToken
  return makeLink(site.store.prisma, { purpose: "setup", userId: null, now: new Date() })
}

async function actionOf(name: string): Promise<(form: FormData) => Promise<unknown>> {
  const [file = "", exported = ""] = name.split(/ (?=\w+$)/)
  const place = new URL(`../../${file}`, import.meta.url).pathname
  const module: Record<string, unknown> = await import(/* @vite-ignore */ place)
  const action = module[exported]
  if (typeof action !== "function") throw new Error(`there is no action ${name}`)
  return async (form) => (action.length > 1 ? action({ problem: null }, form) : action(form))
}

function roleFor(needs: Needs): Role | "nobody" {
  if (needs === "anyone") return "nobody"
  if (needs === "half signed in" || needs === "signed in" || needs === "console") return "nurse"
  const [role] = permissions[needs].roles
  return role
}

async function expectSoundOutcome(run: () => Promise<unknown>, typed: readonly string[]): Promise<void> {
  try {
    expectPlainWords(textsOf(await run()).join(" "), typed.map(wellFormed))
  } catch (error) {
    const place = redirectPlace(error)
    if (place !== null)
      return expect(Object.keys(pages)).toContain(
        place.replace(/[?#].*$/, "").replace(/[0-9a-f-]{36}$/, "[publicId]"),
      )
    if (!(error instanceof AppError)) throw error
    expect(["bad-request", "not-found", "not-permitted"]).toContain(error.code)
    expectPlainWords(error.personMessage, typed)
  }
}

function redirectPlace(error: unknown): string | null {
  if (!(error instanceof Error) || !("digest" in error)) return null
  return /^NEXT_REDIRECT;\w+;([^;]*);/.exec(String(error.digest))?.[1] ?? null
}

function textsOf(answer: unknown): string[] {
  if (typeof answer === "string") return [answer]
  return typeof answer === "object" && answer !== null ? Object.values(answer).flatMap(textsOf) : []
}
