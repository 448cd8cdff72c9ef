import { beforeAll, describe, expect, inject, test } from "vitest"
import { may } from "../../lib/access/permissions"
import { roles, type Role } from "../../lib/access/roles"
import { actions, commands, pages, routes, type Needs } from "../fixtures/authorisation"
import { builtActions } from "../helpers/built-actions"
import { sessionCookie } from "../helpers/signed-in"
import { actionsOfTree, commandsOfTree, pagesOfTree, routesOfTree } from "../helpers/what-can-be-asked"

type Who = Role | "nobody"

const everybody: readonly Who[] = [...roles, "nobody"]
const origin = inject("demoUrl")

let builtByAction: ReturnType<typeof builtActions>

beforeAll(() => {
  builtByAction = builtActions()
})

function isAllowed(who: Who, needs: Needs): boolean {
  if (needs === "anyone") return true
  if (who === "nobody" || needs === "console" || needs === "half signed in") return false
  return needs === "signed in" || may({ roles: [who], grants: [] }, needs)
}

async function ask(who: Who, at: string, init: RequestInit = {}): Promise<Response> {
  const headers = new Headers(init.headers)
  if (who !== "nobody") headers.set("cookie", await sessionCookie(origin, [who]))
  return fetch(`${origin}${at}`, { ...init, headers, redirect: "manual" })
}

const ours = { origin, "sec-fetch-site": "same-origin" }

describe("the table has an entry for", () => {
  test("every screen", () => expect(pagesOfTree().sort()).toEqual(Object.keys(pages).sort()))
  test("every route", () => expect(routesOfTree().sort()).toEqual(Object.keys(routes).sort()))
  test("every command", () => expect(commandsOfTree().sort()).toEqual(Object.keys(commands).sort()))
  test("every action", () =>
    expect(
      actionsOfTree()
        .map((action) => action.name)
        .sort(),
    ).toEqual(Object.keys(actions).sort()))
})

describe.each(Object.entries(pages))("the screen %s", (_name, { needs, at }) => {
  test.each(everybody)("answers %s as the table says", async (who) => {
    const response = await ask(who, at)
    const text = await response.text()

    if (isAllowed(who, needs)) {
      expect([200, 307, 404]).toContain(response.status)
      if (response.status === 307 && needs !== "anyone")
        expect(response.headers.get("location")).not.toBe("/sign-in")
    } else if (who === "nobody" || needs === "half signed in") {
      expect(response.status).toBe(307)
      expect(response.headers.get("location")).toBe("/sign-in")
    } else {
      expect(response.status).toBe(403)
      expect(text).toContain("This account does not open this screen.")
    }
  })
})

describe.each(Object.entries(routes))("the route %s", (name, { needs, at }) => {
  test.each(everybody)("answers %s as the table says", async (who) => {
    const method = name.split(" ")[0] ?? ""
    const response = await ask(who, at, { method, headers: ours })
    const text = await response.text()

    if (isAllowed(who, needs)) {
      // The demo clinic has no provider to go to.
      expect(needs === "anyone" ? [404] : [200, 400]).toContain(response.status)
      return
    }
    expect(response.status).toBe(who === "nobody" ? 401 : 403)
    expect(Object.keys(JSON.parse(text)).sort()).toEqual(["code", "message"])
  })
})

describe.each(Object.entries(actions))("the action %s", (name, { needs, takesNoForm }) => {
  const refusing = everybody.filter((who) => !isAllowed(who, needs))
  const allowed = everybody.filter((who) => isAllowed(who, needs))

  test.skipIf(needs === "anyone")("checks where it comes from and who asks before anything else", () => {
    const source = actionsOfTree().find((action) => action.name === name)?.source ?? ""
    const body = source.slice(source.indexOf("{\n") + 2).trimStart()

    if (needs === "half signed in") return expect(body).toMatch(/^const half = await requireHalf\(\)/)
    expect(body).toMatch(
      new RegExp(
        `^assertSameOrigin\\(await headers\\(\\)\\)\\s+(const caller = )?await requireScreenUser\\("${needs}"\\)`,
      ),
    )
  })

  test.each(refusing)("refuses %s", async (who) => {
    const response = await call(who, name)

    if (who === "nobody" || needs === "half signed in")
      expect(response.headers.get("x-action-redirect")).toMatch(/^\/sign-in\b/)
    else expect(response.status).toBe(403)
  })

  // What takes no form would be done; what takes one stops at its absence.
  test.skipIf(takesNoForm).each(allowed)("lets %s in", async (who) => {
    const response = await call(who, name)

    expect([200, 500]).toContain(response.status)
    expect(response.headers.get("x-action-redirect")).toBeNull()
    expect(response.headers.get("x-nextjs-action-not-found")).toBeNull()
  })

  test("is refused to everybody when another site sends it", async () => {
    const response = await call("clinic-lead", name, {
      origin: "http://elsewhere.example",
      "sec-fetch-site": "cross-site",
    })

    expect(response.status).toBe(400)
  })
})

/** Calls an action without what it would be given. An action runs, and is refused, before its screen is looked at. */
async function call(who: Who, name: string, headers: Record<string, string> = ours): Promise<Response> {
  const built = builtByAction.get(name)
  if (built === undefined) throw new Error(`the built site has no action ${name}`)
  return ask(who, built.at, {
    method: "POST",
    headers: { ...headers, "next-action": built.id, "content-type": "text/plain;charset=UTF-8" },
    body: "[]",
  })
}
