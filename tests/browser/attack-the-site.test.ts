import { request } from "node:http"
import fc from "fast-check"
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest"
import { hashToken } from "../../lib/access/tokens"
import { openClient } from "../../lib/store/client"
import { openDatabase, type OpenDatabase } from "../../lib/store/database"
import type { PrismaClient } from "../../lib/store/generated/client"
import { pages } from "../fixtures/authorisation"
import { builtActions, sendForm } from "../helpers/built-actions"
import { expectPlainWords } from "../helpers/fuzz"
import { hostileSearch, hostileText, queryOf, wellFormed } from "../helpers/hostile"
import { bareEnvironment, fetchSignedIn, sessionCookie } from "../helpers/signed-in"

// One attack each against the running site; docs/security.md lists them together with those that other files try.

const origin = inject("demoUrl")
const account = "app/(clinic)/account/actions.ts"
const users = "app/(clinic)/users/actions.ts"
const door = "app/(door)/actions.ts"
const nobody = "00000000-0000-4000-8000-000000000000"

let database: OpenDatabase
let client: PrismaClient

beforeAll(async () => {
  database = await openDatabase({ environment: { ...bareEnvironment, dataDir: inject("demoDataDir") } })
  client = openClient(database.url)
})

afterAll(async () => {
  await client.$disconnect()
  await database.close()
})

/** Whether a cookie opens the site. */
async function opens(cookie: string): Promise<boolean> {
  const answer = await fetch(`${origin}/account`, { headers: { cookie }, redirect: "manual" })
  await answer.text()
  return answer.status === 200
}

describe("guessing ids", () => {
  test("of people finds nobody, and a number of the clinic's own is no address", async () => {
    const known = await client.patient.findFirstOrThrow()
    const guesses = [nobody, known.patientId, "1", `${known.publicId}0`, known.publicId.slice(0, -1)]
    for (const guess of guesses) {
      const answer = await fetchSignedIn(`${origin}/patients/${encodeURIComponent(guess)}`)
      expect([guess, answer.status]).toEqual([guess, 404])
      await answer.text()
    }
  })

  test("of imports shows a nurse none, whether there is one or not", async () => {
    for (const id of ["1", "2", "999", "2147483648"]) {
      const answer = await fetchSignedIn(`${origin}/imports/${id}`, {}, ["nurse"])
      expect([id, answer.status]).toEqual([id, 403])
      await answer.text()
    }
  })

  test("of sessions ends nobody else's", async () => {
    const theirs = await sessionCookie(origin, ["dietitian"])
    const id = Buffer.from(hashToken(theirs.replace("filtrate=", ""))).toString("hex")

    const end = (cookie: string) =>
      sendForm(origin, { action: `${account} endOne`, fields: [["session", id]], cookie })
    await end(await sessionCookie(origin, ["nurse"]))
    expect(await opens(theirs)).toBe(true)

    await end(theirs)
    expect(await opens(theirs)).toBe(false)
  })
})

describe("a session", () => {
  test("is over once its person has signed out, and the browser is told to forget the site", async () => {
    const cookie = await sessionCookie(origin, ["care-coordinator", "nurse"])
    expect(await opens(cookie)).toBe(true)

    const answer = await sendForm(origin, { action: `${door} signOut`, fields: [], cookie })

    expect(answer.headers.get("clear-site-data")).toBe('"cache", "cookies", "storage"')
    expect(answer.headers.getSetCookie().join()).toMatch(/^filtrate=;.*Max-Age=0/)
    expect(await opens(cookie)).toBe(false)
  })

  test("cannot be fixed beforehand: whoever signs in gets a token nobody knew", async () => {
    const fixed = "filtrate=chosen-by-somebody-else-0123456789abcdefgh"
    const { id: persona } = await client.user.findFirstOrThrow({ where: { isDemo: true } })

    const answer = await sendForm(origin, {
      ...{ action: `${door} enterAsPersona`, fields: [["persona", persona]], cookie: fixed },
    })

    const [given = ""] = answer.headers.getSetCookie()
    expect(given).toMatch(/^filtrate=[\w-]{43}; Path=\/;.*HttpOnly; SameSite=lax/i)
    expect(given).not.toContain("chosen-by-somebody-else")
    expect(await opens(given.split(";")[0] ?? "")).toBe(true)
    expect(await opens(fixed)).toBe(false)
  })
})

test("trying passwords is slowed after five", async () => {
  const fields = [
    ["userName", "somebody-to-be-guessed"],
    ["password", "correct horse battery staple"],
  ] as const
  const said: string[] = []
  for (let attempt = 0; attempt < 7; attempt += 1) {
    const answer = await sendForm(origin, {
      ...{ action: "app/(door)/sign-in/actions.ts signInWithPassword", fields, hasState: true },
    })
    said.push(await answer.text())
  }

  expect(said[0]).toContain("The user name or the password is not right.")
  expect(said.at(-1)).toMatch(/After so many attempts the next is taken in \d+ s\./)
})

describe("a path that climbs out of the site", () => {
  test.each([
    ...["/..%2f..%2f..%2f..%2fetc%2fpasswd", "/%2e%2e/%2e%2e/%2e%2e/etc/passwd", "/....//....//etc/passwd"],
    ...[
      "/_next/static/..%2f..%2f..%2fpackage.json",
      "/_next/static/%2e%2e/%2e%2e/package.json",
      "/_next/../package.json",
    ],
    ...[
      "/placed.js/..%2f..%2f.env",
      "/.env",
      "/.git/config",
      "/package.json",
      "/.next/BUILD_ID",
      "/lib/env.ts",
    ],
    ...[
      "/imports/1/..%2f..%2fpatients/2",
      "/api/imports/..%2f1/rejects",
      "/api/measures/..%2f..%2fsession/people",
    ],
    ...["/..\\..\\etc\\passwd", "/%5c..%5c..%5cetc%5cpasswd", "/%00/etc/passwd"],
    ...[
      "/_next/image?url=%2Fetc%2Fpasswd&w=64&q=75",
      "/_next/image?url=http%3A%2F%2F169.254.169.254%2F&w=64&q=75",
    ],
  ])("%s reaches no file and no other server", async (path) => {
    const answer = await raw({ path, headers: { cookie: await sessionCookie(origin) } })

    expect([307, 308, 400, 403, 404]).toContain(answer.status)
    expect(answer.body).not.toMatch(/root:|"dependencies"|\[core\]|DATABASE_URL=|readEnvironment/)
    expectPlainWords(answer.status === 400 ? answer.body : "")
  })
})

describe("no address of the site leads to another:", () => {
  test.each([
    ...[
      "/prove?to=https://elsewhere.test",
      "/prove?to=//elsewhere.test",
      "/sign-in?next=https://elsewhere.test",
    ],
    ...[
      "/sign-in?provider=https://elsewhere.test",
      "/emergency?patient=https://elsewhere.test",
      "//elsewhere.test/",
    ],
    ...[
      "/\\elsewhere.test",
      "/%5celsewhere.test",
      "/%2f%2felsewhere.test/",
      "/elsewhere.test//",
      "/https://elsewhere.test/",
    ],
    ...["/provider/leave?to=https://elsewhere.test", "/provider/return?state=x&iss=https://elsewhere.test"],
  ])("%s", async (path) => {
    const answer = await raw({ path, headers: { cookie: await sessionCookie(origin) } })

    expect(answer.location ?? "/").toMatch(/^\/(?![/\\])/)
    expect(answer.body).not.toMatch(/(href|action|value|src|content)="[^"]*elsewhere\.test/)
  })

  test("a form that asks to be led elsewhere is led to the account", async () => {
    const answer = await sendForm(origin, {
      ...{
        action: "app/(clinic)/prove/actions.ts giveProof",
        hasState: true,
        cookie: await sessionCookie(origin),
      },
      fields: [
        ["proof", "no proof at all"],
        ["to", "https://elsewhere.test"],
      ],
    })

    expect(answer.headers.get("x-action-redirect") ?? "/").toMatch(/^\/(?![/\\])/)
  })
})

test("an upload that announces more than is taken in is refused before it is read", async () => {
  const answer = await raw({
    ...{ path: "/api/imports", method: "POST" },
    headers: {
      ...{ "content-length": "5000000000", "content-type": "multipart/form-data; boundary=edge" },
      ...{ "sec-fetch-site": "same-origin", cookie: await sessionCookie(origin) },
    },
  })

  expect(answer.status).toBe(413)
})

test("fields that a form does not have change nothing of an account", async () => {
  const userName = `guest-${process.pid}`
  const given = [
    ...[
      ["userName", userName],
      ["name", "Mass Assigned"],
      ["roles", "nurse"],
      ["sites", ""],
      ["staffId", ""],
    ],
    ...[
      ["isDemo", "true"],
      ["passwordHash", "x"],
      ["version", "99"],
      ["grants", "users.manage"],
      ["id", nobody],
    ],
    ...[
      ["__proto__", "x"],
      ["constructor", "x"],
      ["__proto__.roles", "administrator"],
    ],
  ] as const
  const cookie = await sessionCookie(origin, ["administrator"])
  const send = (fields: readonly (readonly [string, string])[]) =>
    sendForm(origin, { action: `${users} invite`, fields, hasState: true, cookie })

  await send(given.map(([name = "", value = ""]) => [name, value] as const))
  expect(await client.user.findUnique({ where: { userName } })).toBeNull()

  await send(
    given.filter(([name]) => name !== "grants").map(([name = "", value = ""]) => [name, value] as const),
  )
  const made = await client.user.findUniqueOrThrow({ where: { userName } })
  expect(made).toMatchObject({
    roles: ["nurse"],
    grants: [],
    isDemo: false,
    passwordHash: null,
    name: "Mass Assigned",
  })
  expect(made.id).not.toBe(nobody)
})

test("nobody gives themselves a role with the form of their own account", async () => {
  const cookie = await sessionCookie(origin, ["nurse"])
  const fields = [
    ["old", "x"],
    ["fresh", "gnu kelp dwarf lantern oboe"],
    ["roles", "administrator"],
  ] as const
  await sendForm(origin, { action: `${account} changePassword`, fields, hasState: true, cookie })

  const after = await fetch(`${origin}/users`, { headers: { cookie } })
  expect(after.status).toBe(403)
})

describe("an action without its form fails without a word of the program:", () => {
  const bodies = [
    "",
    "[]",
    "[null]",
    '["$K1"]',
    '[{"__proto__":{"isAdmin":true}}]',
    '["$@1"]',
    '["$F1"]',
    "{",
    "x".repeat(2000),
  ]

  test("every action of the site, with bodies of every kind", async () => {
    const cookie = await sessionCookie(origin, ["nephrologist"])
    for (const [name, built] of builtActions())
      for (const body of /signOut|endOwn/.test(name) ? [] : bodies) {
        const answer = await fetch(origin + built.at, {
          ...{ method: "POST", body, redirect: "manual" },
          headers: { origin, cookie, "next-action": built.id, "content-type": "text/plain;charset=UTF-8" },
        })
        const text = await answer.text()
        expect(answer.status).toBeLessThan(501)
        if (answer.status >= 400) expectPlainWords(text.replaceAll(/\/_next\/[^"\\]*/g, ""), [body])
      }
    expect((await fetch(`${origin}/sign-in`)).status).toBe(200)
  })
})

describe("whatever an address asks of a screen, it is answered:", () => {
  const names = [
    "month",
    "standing",
    "detail",
    "clinician",
    "page",
    "series",
    "to",
    "provider",
    "before",
    "after",
    "file",
  ]
  const search = hostileSearch([...names, "__proto__", "bp.systolicTarget"], ["2026-01", "2", "met", "120"])

  test.each(Object.entries(pages).filter(([name]) => name !== "/[...missing]"))(
    "%s",
    async (_name, { at }) => {
      const cookie = await sessionCookie(origin)
      for (const query of fc.sample(search.map(queryOf), 25)) {
        const answer = await raw({ path: `${at}?${query}`, headers: { cookie } })
        expect([query, [200, 307, 400, 403, 404].includes(answer.status)]).toEqual([query, true])
        if (answer.location) expect(answer.location).toMatch(/^\/(?![/\\])/)
      }
    },
  )

  test("and whatever stands in the place of an id", async () => {
    const cookie = await sessionCookie(origin)
    for (const text of fc.sample(hostileText, 60)) {
      const part = encodeURIComponent(wellFormed(text)).replace(/^\.{1,2}$/, "x") || "x"
      for (const path of [
        `/patients/${part}`,
        `/measures/${part}`,
        `/imports/${part}`,
        `/imports/1/${part}/2`,
        `/setup/${part}`,
      ]) {
        const answer = await raw({ path, headers: { cookie } })
        expect([path, [200, 307, 308, 400, 403, 404].includes(answer.status)]).toEqual([path, true])
      }
    }
  })
})

type Raw = { status: number; location: string | undefined; body: string }

/** Asks by the path as it is written, which fetch would tidy. */
function raw(options: { path: string; method?: string; headers?: Record<string, string> }): Promise<Raw> {
  const { host, port } = new URL(origin)
  return new Promise((resolve, reject) => {
    const { headers = {}, ...rest } = options
    const asked = request(
      { host: "localhost", port, headers: { host, ...headers }, agent: false, ...rest },
      (answer) => {
        let body = ""
        answer.setEncoding("utf8").on("data", (chunk: string) => (body += chunk))
        answer.once("end", () => {
          resolve({ status: answer.statusCode ?? 0, location: answer.headers.location, body })
          asked.destroy()
        })
      },
    )
    asked.once("error", reject)
    if (headers["content-length"] === undefined) asked.end()
    else asked.flushHeaders()
  })
}
